#pragma once
// What one attribute says about the two cups of one sheet, on the analysis grid. Private to core/evidence.
#include <cstdint>
#include <optional>

#include "core/acts/unmask.h"
#include "core/domain/attribute.h"
#include "core/domain/sheet.h"
#include "core/evidence/differences.h"

namespace likeleaf::evidence {

/// The difference between two cups of one sheet, and what has to be known about it.
struct CupDifference {
  std::int64_t d = 0;                  ///< b − a: half points, or round(1e9 ln(b/a))
  bool cut_off = false;                ///< a finish time below 3 s or above 120 s took part
  bool faint = false, strong = false;  ///< both cups ≤ 0.5, both ≥ 9.5
};

/// One cup in points (aroma register: top − base) or whole seconds; nothing without a usable score.
std::optional<double> cup_value(const CupMarks& cup, const Attribute& attribute);
/// Nothing when a cup has no usable score, or both finish times were cut off at the same end.
std::optional<CupDifference> cup_difference(const CupMarks& a, const CupMarks& b, const Attribute& attribute,
                                            CutOff cut_off);
/// A finish time of the sheet was cut off, whether or not the pair can be used.
bool any_cut_off(const CupMarks& a, const CupMarks& b, const Attribute& attribute);
/// "Could not judge" was the answer for either cup.
bool could_not_judge(const CupMarks& a, const CupMarks& b, const Attribute& attribute);

/// Units of the grid in one point (2), or in one unit of ln ratio (1e9).
std::int64_t grid_units(Scale scale);

inline const CupMarks& cup_a(const Pairing& pairing) {
  return pairing.sheet->cup(other(pairing.side_b));
}
inline const CupMarks& cup_b(const Pairing& pairing) {
  return pairing.sheet->cup(pairing.side_b);
}

/// Which pairings make up one contrast: its contrast pairs, and repeat servings with the pair that they repeat.
struct ContrastPairing {
  const Pairing* pairing = nullptr;
  IdOf<Lot> lot;
  int set = 0;                    ///< for a repeat serving, of the pair that it repeats
  const Pairing* twin = nullptr;  ///< the other of a serving and its repeat, by the same assessor
};
/// The deciding set; with `drop_late` also without the sheets excluded after unmask.
std::vector<ContrastPairing> contrast_pairings(const Unmasked& unmasked, Contrast contrast, bool drop_late);

}  // namespace likeleaf::evidence
