#pragma once
// Prints that hold the key: the preparer's sheet, and the folded slips of a taster who brews for themself. Prints for
// tasters are in taster_prints.h, which cannot see what is here.
#include <string>
#include <vector>

#include "core/acts/key_vault.h"
#include "core/base/style.h"
#include "core/report/document.h"
#include "core/report/taster_prints.h"

namespace likeleaf::report {

/// The open side of a sealed trial, for labels and tray map.
TablePlan table_plan(const Trial& trial);

/// What to weigh, brew, pour and serve, with the level of every brew and the brew of every code. Every page is marked
/// as holding the key.
/// @pre the pass is of this trial
Document preparer_sheet(const Trial& trial, const PreparerPass& pass, const PrintScope& scope, const Style& style);

/// One brew of a self-blinded taster: what may be read before, and what is folded in until it is brewed.
struct PortionSlip {
  std::string brew, portion;        ///< "brew 7"; "sitting 1, portion 5 of L-12"
  std::vector<std::string> inside;  ///< leaf, water, steep, stickers
};
struct PortionSlips {
  std::string title, hint;
  std::vector<PortionSlip> slips;  ///< in the order of brewing
};
/// Refused unless the trial is sealed and self-blinded: where somebody else prepares, the key stays with them.
Result<PortionSlips> portion_slips(const Trial& trial, const PrintScope& scope, const Style& style);

/// How much boiling and how much cool water make one pour of `mass` at `wanted`.
struct WaterMix {
  Mass boiling, cool;
};
/// By the masses alone (no loss to the vessel), boiling taken as 100 °C. Nothing when `wanted` is not between the two.
std::optional<WaterMix> water_mix(Mass mass, Temperature wanted, Temperature cool);

/// File names without ending.
std::string preparer_sheet_file(const Trial& trial, const PrintScope& scope);
std::string portion_slips_file(const PrintScope& scope);

}  // namespace likeleaf::report
