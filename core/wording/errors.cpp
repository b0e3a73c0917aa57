#include "core/wording/errors.h"

#include <fmt/format.h>

#include "core/base/text.h"

namespace likeleaf::wording {
namespace {

std::string field_of(const Error& e) {
  switch (e.at) {
    case Field::named:
      return e.field;
    case Field::book:
      return "book";
    case Field::from_when:
      return "from when";
    case Field::house_rule:
      return "house rule";
    case Field::leaves:
      return "leaves";
    case Field::look_again:
      return "look again";
    case Field::new_value:
      return "new value";
    case Field::reason:
      return "reason";
    case Field::review_date:
      return "review date";
    case Field::who:
      break;
  }
  return "who";
}

std::string joined(const Error& e, std::string_view lead, std::string_view without_value) {
  std::string out = e.value.empty() ? std::string(without_value) : fmt::format("{} “{}”", lead, e.value);
  const std::string field = field_of(e);
  if (!field.empty()) out = fmt::format("{}: {}", upper_first(field), out);
  if (!e.allowed.empty()) out += fmt::format("; allowed: {}", e.allowed);
  if (!e.where.empty()) out += fmt::format(" ({})", e.where);
  return out + ".";
}

}  // namespace

std::string sentence(const Error& e) {
  if (e.kind == ErrorKind::in_use && e.at == Field::book && !e.value.empty())
    return fmt::format("The book is open elsewhere, by {}. Close it there, then open it here ({}).", e.value, e.where);
  if (e.kind == ErrorKind::read_only && e.at == Field::book && e.value.empty() && e.allowed.empty())
    return fmt::format("The book cannot be changed: its file or its folder is write-protected ({}).", e.where);
  switch (e.kind) {
    case ErrorKind::bad_value:
      return joined(e, "cannot take", "that value cannot be taken");
    case ErrorKind::missing:
      return joined(e, "missing:", "is missing");
    case ErrorKind::duplicate:
      return joined(e, "is there twice:", "is there twice");
    case ErrorKind::not_allowed:
      return joined(e, "not possible now:", "not possible now");
    case ErrorKind::not_found:
      return joined(e, "not found:", "not found");
    case ErrorKind::conflict:
      return joined(e, "the same record with other content is already there:",
                    "the same record with other content is already there");
    case ErrorKind::malformed:
      return joined(e, "not in the expected form:", "not in the expected form");
    case ErrorKind::too_large:
      return joined(e, "too large:", "too large");
    case ErrorKind::too_deep:
      return joined(e, "nested too deep:", "nested too deep");
    case ErrorKind::newer_version:
      return joined(e, "made by a newer Likeleaf:", "made by a newer Likeleaf");
    case ErrorKind::foreign_file:
      return joined(e, "not a Likeleaf file:", "not a Likeleaf file");
    case ErrorKind::damaged:
      return joined(e, "damaged:", "damaged");
    case ErrorKind::in_use:
      return joined(e, "open elsewhere:", "open elsewhere");
    case ErrorKind::read_only:
      return joined(e, "cannot be changed:", "cannot be changed");
    case ErrorKind::disk_full:
      return joined(e, "no room left on the disk:", "no room left on the disk");
    case ErrorKind::cannot_read:
      return joined(e, "cannot be read:", "cannot be read");
    case ErrorKind::cannot_write:
      return joined(e, "cannot be written:", "cannot be written");
    case ErrorKind::gone:
      return fmt::format(
          "The book is no longer at {}: its folder was renamed, moved or taken away. Put it back, then try again.",
          e.where);
    case ErrorKind::cancelled:
      return "Stopped.";
    case ErrorKind::internal:
      break;
  }
  return joined(e, "a fault of the program:", "a fault of the program");
}

}  // namespace likeleaf::wording
