// Guesses, aroma words and counts.
#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "core/acts/agreed_words.h"
#include "core/codec/builtin.h"
#include "core/evidence/cup_values.h"
#include "core/evidence/find_parts.h"
#include "core/stats/distributions.h"

namespace likeleaf::evidence {
namespace {

constexpr double unblinded_alpha = 0.05;

bool counted_contrast(const Pairing& pairing) {
  return pairing.kind == PairKind::contrast && pairing.sheet && !pairing.excluded_before;
}

const char* band_name(AromaWord::Band band) {
  switch (band) {
    case AromaWord::Band::base:
      return "base";
    case AromaWord::Band::middle:
      return "middle";
    case AromaWord::Band::top:
      return "top";
  }
  return "";
}

/// A word as shown, and its band; a house's own word stands as typed, without a band.
std::pair<std::string, std::string> shown_word(const std::string& word) {
  for (const auto& known : builtin_lexicon())
    if (known.id == word) return {known.word, band_name(known.band)};
  return {word, ""};
}

std::set<std::string> words_of(const CupMarks& cup) {
  std::set<std::string> result;
  for (const auto& mark : cup.words) result.insert(mark.word);
  return result;
}

}  // namespace

std::string lot_code(const SealedPlan& sealed, IdOf<Lot> lot) {
  const auto* record = find_record(sealed.registers.lots, lot);
  return record ? record->code : lot.text();
}

Guesses guesses(const Unmasked& unmasked) {
  Guesses result;
  const std::size_t reference = unmasked.plan().plan.lever.reference();
  for (const auto& pairing : unmasked.pairings()) {
    if (!counted_contrast(pairing) || !pairing.sheet->guess) continue;
    const auto& guess = *pairing.sheet->guess;
    ++result.sheets;
    if (guess.saw_difference) ++result.saw_difference;
    if (!guess.present_way) continue;
    ++result.guessed;
    const Side present = pairing.levels.b == reference ? pairing.side_b : other(pairing.side_b);
    if (*guess.present_way == present) ++result.right;
  }
  if (result.guessed > 0) {
    result.p = stats::binomial_upper_tail(result.right, result.guessed, 0.5);
    result.possibly_unblinded = *result.p <= unblinded_alpha;
  }
  return result;
}

std::vector<WordCount> word_counts(const Unmasked& unmasked, const std::vector<Contrast>& contrasts) {
  std::vector<WordCount> result;
  for (const auto& contrast : contrasts) {
    std::map<std::string, WordCount> counts;
    for (const auto& pairing : unmasked.pairings()) {
      if (!counted_contrast(pairing) || pairing.levels != contrast) continue;
      const auto a = words_of(cup_a(pairing)), b = words_of(cup_b(pairing));
      for (const auto& word : a) ++counts[word].a_cups;
      for (const auto& word : b) ++counts[word].b_cups;
      auto either = a;
      either.insert(b.begin(), b.end());
      for (const auto& word : either) ++counts[word].pairs;
    }
    std::vector<WordCount> of_contrast;
    for (auto& [word, count] : counts) {
      std::tie(count.word, count.band) = shown_word(word);
      count.contrast = contrast;
      of_contrast.push_back(count);
    }
    std::stable_sort(of_contrast.begin(), of_contrast.end(),
                     [](const WordCount& x, const WordCount& y) { return x.pairs > y.pairs; });
    result.insert(result.end(), of_contrast.begin(), of_contrast.end());
  }
  return result;
}

namespace {

void count_sheet(const Unmasked& unmasked, const Pairing& pairing, Findings& findings) {
  ++findings.sheets;
  if (pairing.excluded_before) ++findings.excluded_before;
  if (pairing.excluded_after) ++findings.excluded_after;
  if (pairing.kind == PairKind::warm_up || pairing.excluded_before) return;
  ++findings.counted_sheets;
  if (pairing.kind != PairKind::contrast) return;
  ++findings.tasted_pairs;
  for (const auto& attribute : unmasked.plan().attributes)
    if (could_not_judge(cup_a(pairing), cup_b(pairing), attribute)) ++findings.could_not_judge;
}

}  // namespace

void fill_counts(const Unmasked& unmasked, Findings& findings) {
  const auto& sealed = unmasked.plan();
  std::set<std::pair<IdOf<Lot>, int>> brew_pairs;
  std::set<IdOf<Lot>> lots;
  std::set<IdOf<Assessor>> assessors;
  for (const auto& pairing : unmasked.pairings()) {
    if (!pairing.sheet) continue;
    count_sheet(unmasked, pairing, findings);
    if (!counted_contrast(pairing)) continue;
    brew_pairs.insert({pairing.lot, pairing.set});
    lots.insert(pairing.lot);
    assessors.insert(pairing.assessor);
  }
  findings.brew_pairs = static_cast<int>(brew_pairs.size());
  findings.lots = static_cast<int>(lots.size());
  findings.assessors = static_cast<int>(assessors.size());
  for (const auto& lot : sealed.plan.lots)
    if (lots.contains(lot)) findings.lot_codes.push_back(lot_code(sealed, lot));
  for (const auto& assessor : sealed.plan.assessors)
    if (assessors.contains(assessor.id)) findings.assessor_aliases.push_back(alias_of(sealed.registers, assessor.id));
  // Words agreed before anybody tasted change nothing of what was tasted.
  findings.amended = static_cast<int>(std::ranges::count_if(unmasked.trial().amendments, [](const Amendment& a) {
    return a.target != Amendment::Target::plan_note || a.field != agreed_words_field;
  }));
  findings.voided = static_cast<int>(unmasked.trial().voids.size());
}

}  // namespace likeleaf::evidence
