#pragma once
// Errors as values. Core gives a kind and facts; core/wording/errors.h turns them into a sentence in the user's words.
#include <string>
#include <tl/expected.hpp>
#include <utility>

namespace likeleaf {

/// What went wrong, by the way a user has to react to it.
enum class ErrorKind {
  bad_value,      ///< a typed or read value is not what the field allows
  missing,        ///< something required is absent
  duplicate,      ///< something that must be unique appears twice
  not_allowed,    ///< the act is not possible at this stage of the trial
  not_found,      ///< a named record does not exist
  conflict,       ///< same id, other content
  malformed,      ///< a file is not in the format it should be
  too_large,      ///< over a stated limit of size
  too_deep,       ///< over a stated limit of nesting
  newer_version,  ///< made by a newer Likeleaf
  foreign_file,   ///< a file of something else
  damaged,        ///< a book that fails its checks
  in_use,         ///< open elsewhere
  read_only,      ///< cannot be changed
  disk_full,      ///< no room left
  cannot_read,    ///< the system refused reading
  cannot_write,   ///< the system refused writing
  gone,           ///< a file whose folder was renamed, moved or taken away
  cancelled,      ///< the user stopped it: nothing to show
  internal        ///< our own bug
};

/// Fields that code decides by: which blank of a form says it, which sentence a book's error gets. Their words are made
/// by core/wording/errors.h.
enum class Field {
  named,  ///< any other: Error::field has its words
  book,
  from_when,    ///< from which day or occasion on a house rule holds
  house_rule,   ///< its sentence
  leaves,       ///< of a house rule
  look_again,   ///< the blank for the review date
  new_value,    ///< of an amendment
  reason,       ///< why something was done
  review_date,  ///< when a house rule is looked at again
  who           ///< somebody's initials
};

/// One error: which field (in the user's words), the value that was given, what is allowed, and where it stood. The
/// texts are for people: code decides by `kind` and `at`.
struct Error {
  ErrorKind kind = ErrorKind::internal;
  std::string field;    ///< "bitterness, cup 417"; "lots"; a JSON pointer's last name; empty unless `at` is `named`
  std::string value;    ///< as given, cut to a readable length; may be empty
  std::string allowed;  ///< "0 to 10 in half steps"; may be empty
  std::string where;    ///< file, line, JSON pointer, record; may be empty
  Field at = Field::named;
  bool operator==(const Error&) const = default;
};

template <class T>
using Result = tl::expected<T, Error>;

/// `return fail(ErrorKind::bad_value, "steep", "soon", "1 to 3600 seconds");`
[[nodiscard]] inline tl::unexpected<Error> fail(ErrorKind kind, std::string field = {}, std::string value = {},
                                                std::string allowed = {}, std::string where = {}) {
  return tl::unexpected<Error>(Error{kind, std::move(field), std::move(value), std::move(allowed), std::move(where)});
}
/// `return fail(ErrorKind::missing, Field::who);`
[[nodiscard]] inline tl::unexpected<Error> fail(ErrorKind kind, Field at, std::string value = {},
                                                std::string allowed = {}, std::string where = {}) {
  return tl::unexpected<Error>(Error{kind, {}, std::move(value), std::move(allowed), std::move(where), at});
}

}  // namespace likeleaf
