#include "core/acts/amendment.h"

#include <algorithm>
#include <charconv>

#include "core/acts/agreed_words.h"
#include "core/base/number_text.h"
#include "core/codec/value_text.h"
#include "core/domain/attribute.h"

namespace likeleaf {
namespace {

// ---- Machine text of whole numbers of a small unit ------------------------------------------------------

/// 88500 with three decimals is "88.5"; trailing zeros go.
std::string plain_decimal(std::int64_t value, int decimals) {
  std::string digits = std::to_string(value < 0 ? -value : value);
  const auto places = static_cast<std::size_t>(decimals);
  if (digits.size() <= places) digits.insert(0, places + 1 - digits.size(), '0');
  std::string fraction = digits.substr(digits.size() - places);
  while (!fraction.empty() && fraction.back() == '0') fraction.pop_back();
  const std::string whole = digits.substr(0, digits.size() - places);
  return (value < 0 ? "-" : "") + whole + (fraction.empty() ? "" : "." + fraction);
}

Result<std::optional<Temperature>> optional_temperature(const std::string& text, const std::string& field) {
  if (text.empty()) return std::optional<Temperature>();
  return parse_temperature(text, Style{}, field).map([](Temperature t) { return std::optional(t); });
}
Result<std::optional<Mass>> optional_mass(const std::string& text, const std::string& field) {
  if (text.empty()) return std::optional<Mass>();
  return parse_mass(text, field).map([](Mass m) { return std::optional(m); });
}
Result<std::optional<Duration>> optional_duration(const std::string& text, const std::string& field) {
  if (text.empty()) return std::optional<Duration>();
  return parse_duration(text, field).map([](Duration d) { return std::optional(d); });
}
Result<std::optional<std::int64_t>> optional_hundredths(const std::string& text, const std::string& field,
                                                        std::int64_t most, const char* allowed) {
  if (text.empty()) return std::optional<std::int64_t>();
  return parse_decimal(text, 2, 0, most, field, allowed).map([](std::int64_t n) { return std::optional(n); });
}

/// Puts what was read into its place, or hands the error on.
template <class T>
Result<void> put(Result<T> read, T& into) {
  if (!read) return tl::unexpected<Error>(read.error());
  into = std::move(*read);
  return {};
}

// ---- Brews ----------------------------------------------------------------------------------------------

constexpr const char* brew_fields =
    "leaf, pour, water, steep (steep.2 for the second infusion), tds, ph, chill or note";

struct BrewField {
  std::string name;
  std::size_t infusion = 0;
};

std::optional<BrewField> brew_field(const std::string& field) {
  const auto dot = field.find('.');
  BrewField out{field.substr(0, dot), 0};
  const bool by_infusion = out.name == "pour" || out.name == "water" || out.name == "steep";
  const bool whole =
      out.name == "leaf" || out.name == "tds" || out.name == "ph" || out.name == "chill" || out.name == "note";
  if (dot == std::string::npos) return by_infusion || whole ? std::optional(out) : std::nullopt;
  int number = 0;
  const char* end = field.data() + field.size();
  const auto [stopped, error] = std::from_chars(field.data() + dot + 1, end, number);
  if (!by_infusion || error != std::errc() || stopped != end || number < 1 || number > 50) return std::nullopt;
  out.infusion = static_cast<std::size_t>(number - 1);
  return out;
}

std::string brew_value(const Brew& brew, const BrewField& field) {
  if (field.name == "leaf") return brew.leaf ? plain_decimal(brew.leaf->count(), 3) : "";
  if (field.name == "tds") return brew.tds_permyriad ? plain_decimal(*brew.tds_permyriad, 2) : "";
  if (field.name == "ph") return brew.ph_hundredths ? plain_decimal(*brew.ph_hundredths, 2) : "";
  if (field.name == "chill") return brew.chill;
  if (field.name == "note") return brew.note;
  if (field.infusion >= brew.infusions.size()) return "";
  const Infusion& infusion = brew.infusions[field.infusion];
  if (field.name == "pour") return infusion.pour ? plain_decimal(infusion.pour->milli_celsius(), 3) : "";
  if (field.name == "water") return infusion.water ? plain_decimal(infusion.water->count(), 3) : "";
  return infusion.steep ? plain_decimal(infusion.steep->count(), 3) : "";
}

Result<void> set_brew_value(Brew& brew, const BrewField& field, const std::string& text) {
  if (field.name == "leaf") return put(optional_mass(text, "leaf"), brew.leaf);
  if (field.name == "tds") return put(optional_hundredths(text, "tds", 10000, "0 to 100 per cent"), brew.tds_permyriad);
  if (field.name == "ph") return put(optional_hundredths(text, "ph", 1400, "0 to 14"), brew.ph_hundredths);
  if (field.name == "chill" || field.name == "note") {
    (field.name == "chill" ? brew.chill : brew.note) = text;
    return {};
  }
  // Checked before the list grows, so that a refused value leaves the brew as it was.
  Infusion infusion = field.infusion < brew.infusions.size() ? brew.infusions[field.infusion] : Infusion{};
  Result<void> done = field.name == "pour"    ? put(optional_temperature(text, "pour"), infusion.pour)
                      : field.name == "water" ? put(optional_mass(text, "water"), infusion.water)
                                              : put(optional_duration(text, "steep"), infusion.steep);
  if (!done) return done;
  if (field.infusion >= brew.infusions.size()) brew.infusions.resize(field.infusion + 1);
  brew.infusions[field.infusion] = infusion;
  return {};
}

// ---- Sheets ---------------------------------------------------------------------------------------------

std::string mark_value(const Sheet& sheet, Side side, const std::string& field) {
  const auto& marks = sheet.cup(side).marks;
  const auto found = marks.find(field);
  return found == marks.end() ? "" : mark_text(found->second);
}

Result<void> set_mark_value(Sheet& sheet, const SealedPlan& plan, const Amendment& amendment,
                            const std::string& label) {
  auto& marks = sheet.cup(*amendment.side).marks;
  if (amendment.new_value.empty()) {
    marks.erase(amendment.field);
    return {};
  }
  const Attribute* attribute = planned_field(plan, amendment.field);
  auto mark = parse_mark(attribute->scale, amendment.new_value, label);
  if (!mark) return tl::unexpected<Error>(mark.error());
  marks.insert_or_assign(amendment.field, *mark);
  return {};
}

std::string direct_value(const Sheet& sheet, const std::string& attribute) {
  const auto found = sheet.directs.find(attribute);
  return found == sheet.directs.end() ? "" : codec::word_of(found->second);
}

Result<void> set_direct_value(Sheet& sheet, const Amendment& amendment) {
  if (amendment.new_value.empty()) {
    sheet.directs.erase(amendment.field);
    return {};
  }
  if (const auto answer = codec::read_word<Direct>(amendment.new_value)) {
    sheet.directs[amendment.field] = *answer;
    return {};
  }
  return fail(ErrorKind::bad_value, amendment.field, shown_value(amendment.new_value),
              "left_more, right_more, cannot_tell or nothing");
}

Result<void> amend_sheet(Sheet& sheet, const SealedPlan& plan, const Amendment& amendment, const std::string& label) {
  return amendment.target == Amendment::Target::sheet_mark ? set_mark_value(sheet, plan, amendment, label)
                                                           : set_direct_value(sheet, amendment);
}

const BlindServing* find_serving(const Trial& trial, IdOf<Serving> id) {
  for (const auto& serving : trial.servings)
    if (serving.id == id) return &serving;
  return nullptr;
}

std::string planned_names(const SealedPlan& plan) {
  std::string names;
  for (const auto& attribute : plan.attributes)
    for (const auto& field : mark_fields(attribute)) names += (names.empty() ? "" : ", ") + field;
  return names;
}

bool concerns_sheet(const Amendment& amendment) {
  return amendment.target == Amendment::Target::sheet_mark || amendment.target == Amendment::Target::sheet_direct;
}

Result<Amendment> completed_sheet(const Trial& trial, Amendment amendment) {
  const BlindServing* serving = find_serving(trial, amendment.serving);
  if (serving == nullptr)
    return fail(ErrorKind::not_found, "serving", amendment.serving.text(), "a serving of this trial");
  const auto now = amended_sheet(trial, amendment.serving);
  if (!now || !now->locked)
    return fail(ErrorKind::not_allowed, "amendment", amendment.field,
                "an amendment of a locked sheet; an open sheet is written on as it is");
  amendment.brew = {};
  Sheet next = *now;
  if (amendment.target == Amendment::Target::sheet_mark) {
    if (planned_field(*trial.sealed, amendment.field) == nullptr)
      return fail(ErrorKind::bad_value, "field", shown_value(amendment.field), planned_names(*trial.sealed));
    if (!amendment.side) return fail(ErrorKind::missing, "side", "", "left or right");
    const BlindCode cup = *amendment.side == Side::left ? serving->left : serving->right;
    amendment.old_value = mark_value(*now, *amendment.side, amendment.field);
    if (auto done = amend_sheet(next, *trial.sealed, amendment, mark_label(amendment.field, cup)); !done)
      return tl::unexpected<Error>(done.error());
    amendment.new_value = mark_value(next, *amendment.side, amendment.field);
    return amendment;
  }
  const Attribute* attribute = find_attribute(trial.sealed->attributes, amendment.field);
  if (attribute == nullptr || !attribute->direct)
    return fail(ErrorKind::bad_value, "field", shown_value(amendment.field),
                "an attribute of the plan that asks for a direct answer");
  amendment.side.reset();
  amendment.old_value = direct_value(*now, amendment.field);
  if (auto done = amend_sheet(next, *trial.sealed, amendment, ""); !done) return tl::unexpected<Error>(done.error());
  return amendment;
}

Result<Amendment> completed_brew(const Trial& trial, Amendment amendment) {
  const auto now = amended_brew(trial, amendment.brew);
  if (!now) return fail(ErrorKind::not_found, "brew", amendment.brew.text(), "a brew of this trial");
  const auto field = brew_field(amendment.field);
  if (!field) return fail(ErrorKind::bad_value, "field", shown_value(amendment.field), brew_fields);
  Brew next = *now;
  amendment.serving = {};
  amendment.side.reset();
  amendment.old_value = brew_value(*now, *field);
  if (auto done = set_brew_value(next, *field, amendment.new_value); !done) return tl::unexpected<Error>(done.error());
  amendment.new_value = brew_value(next, *field);
  return amendment;
}

Result<Amendment> completed_note(const Trial& trial, Amendment amendment) {
  if (amendment.field.empty()) return fail(ErrorKind::missing, "field", "", "what the note is about");
  amendment.serving = {};
  amendment.side.reset();
  amendment.brew = {};
  const Plan& plan = trial.sealed->plan;
  amendment.old_value = amendment.field == "notes" ? plan.notes : "";
  if (amendment.field == agreed_words_field && plan.reference_pair) amendment.old_value = plan.reference_pair->words;
  for (const auto& earlier : trial.amendments)
    if (earlier.target == Amendment::Target::plan_note && earlier.field == amendment.field)
      amendment.old_value = earlier.new_value;
  return amendment;
}

}  // namespace

std::string mark_label(std::string_view field, BlindCode cup) {
  std::string label(field);
  std::ranges::replace(label, '_', ' ');
  std::ranges::replace(label, '.', ' ');
  return label + ", cup " + cup.text();
}

const Attribute* planned_field(const SealedPlan& plan, std::string_view field) {
  const Attribute* attribute = find_attribute(plan.attributes, attribute_of_field(field));
  if (attribute == nullptr) return nullptr;
  const std::vector<std::string> fields = mark_fields(*attribute);
  return std::ranges::find(fields, field) != fields.end() ? attribute : nullptr;
}

std::shared_ptr<const Sheet> amended_sheet(const Trial& trial, IdOf<Serving> serving) {
  const auto found = trial.sheets.find(serving);
  if (found == trial.sheets.end() || !trial.sealed) return nullptr;
  std::shared_ptr<Sheet> copy;
  for (const auto& amendment : trial.amendments) {
    if (!concerns_sheet(amendment) || amendment.serving != serving) continue;
    const bool readable = amendment.target == Amendment::Target::sheet_direct ||
                          (amendment.side && planned_field(*trial.sealed, amendment.field) != nullptr);
    if (!readable) continue;
    if (!copy) copy = std::make_shared<Sheet>(*found->second);
    // apply() and the readers of bundles let no amendment in whose value does not read; one that does not changes
    // nothing.
    (void)amend_sheet(*copy, *trial.sealed, amendment, amendment.field);
  }
  return copy ? std::shared_ptr<const Sheet>(copy) : found->second;
}

std::shared_ptr<const Brew> amended_brew(const Trial& trial, IdOf<Brew> brew) {
  const auto found = trial.brews.find(brew);
  if (found == trial.brews.end()) return nullptr;
  std::shared_ptr<Brew> copy;
  for (const auto& amendment : trial.amendments) {
    if (amendment.target != Amendment::Target::brew || amendment.brew != brew) continue;
    const auto field = brew_field(amendment.field);
    if (!field) continue;
    if (!copy) copy = std::make_shared<Brew>(*found->second);
    (void)set_brew_value(*copy, *field, amendment.new_value);
  }
  return copy ? std::shared_ptr<const Brew>(copy) : found->second;
}

Result<Amendment> completed(const Trial& trial, const Amendment& amendment) {
  switch (amendment.target) {
    case Amendment::Target::sheet_mark:
    case Amendment::Target::sheet_direct:
      return completed_sheet(trial, amendment);
    case Amendment::Target::brew:
      return completed_brew(trial, amendment);
    case Amendment::Target::plan_note:
      return completed_note(trial, amendment);
  }
  return fail(ErrorKind::internal, "target");
}

}  // namespace likeleaf
