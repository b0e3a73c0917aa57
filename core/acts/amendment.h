#pragma once
// Amendments as read by the program: which value a record names, what that value is now, and a record with all its
// amendments applied. Values are machine text: marks as mark_text() writes them, "left_more", grams, seconds and °C as
// decimals with a point, tds in per cent; empty text is "no value".
#include <memory>
#include <optional>
#include <string>

#include "core/base/result.h"
#include "core/domain/trial.h"

namespace likeleaf {

/// A mark as it is named to people: "bitterness, cup 417"; "aroma register top, cup 417".
std::string mark_label(std::string_view field, BlindCode cup);
/// The planned attribute that a sheet's field belongs to; nullptr when the plan does not ask for this field.
const Attribute* planned_field(const SealedPlan& plan, std::string_view field);

/// The sheet with its amendments applied, oldest first; nullptr when there is no such sheet. Shares the sheet itself
/// when nothing was amended.
std::shared_ptr<const Sheet> amended_sheet(const Trial& trial, IdOf<Serving> serving);
/// The brew with its amendments applied; nullptr when there is no such brew.
std::shared_ptr<const Brew> amended_brew(const Trial& trial, IdOf<Brew> brew);

/// Checks target, field and new value, fills in old_value (what stands now) and brings new_value to machine text.
/// Who, why and the time are the command's business. Brew fields: "leaf", "tds", "ph", "chill", "note", and by infusion
/// "pour", "water", "steep" ("steep.2" is the second infusion's). Plan notes: any field in words.
Result<Amendment> completed(const Trial& trial, const Amendment& amendment);

}  // namespace likeleaf
