#pragma once
// A trial as tidy tables for anyone's own analysis.
#include <memory>
#include <vector>

#include "core/base/result.h"
#include "core/domain/trial.h"
#include "core/exchange/csv_text.h"

namespace likeleaf::exchange {

/// RFC 4180 tables of a sealed trial, in a fixed order of rows: by sitting, place, assessor, side and field.
///
/// "marks.csv": one row for each assessor, pair, cup and field of a sheet. `value` is a number in `unit` where there is
/// one ("points" in half steps, "seconds"), `answer` says what kind it is: "score", "under 3", "over 120", "could not
/// judge", "not tasted", "spoilt", "blank". `direct` is the direct answer on the attribute ("left_more", …). `entered`
/// is how the mark came into the book: "screen", "paper once", "paper twice", "import". Amendments
/// are applied after unmask; voided pairs are left out; excluded sheets stay, with `excluded` "before unmask" or
/// "after". "words.csv": one row for each aroma word of a cup. "brews.csv": one row for each brew and infusion as
/// planned and as it was; only after unmask.
///
/// Before unmask both tables hold codes only: no kind of pair, lot, brew pair or level. Refused for a draft.
Result<std::vector<CsvFile>> tidy_csv(const std::shared_ptr<const Trial>& trial);

}  // namespace likeleaf::exchange
