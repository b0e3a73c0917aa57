#include "core/acts/unmask.h"

#include <algorithm>

#include "core/acts/amendment.h"
#include "core/base/number_text.h"
#include "core/codec/seal.h"

namespace likeleaf {
namespace {

constexpr std::size_t named_at_most = 24;  ///< open sheets named in one message; the rest are counted

/// "K., pair 3 of sitting 2", as the list on the table says it.
std::string serving_name(const SealedPlan& sealed, const BlindServing& serving) {
  const std::string pair = serving.place == 0 ? "warm-up pair" : "pair " + std::to_string(serving.place);
  return alias_of(sealed.registers, serving.assessor) + ", " + pair + " of sitting " + std::to_string(serving.sitting);
}

std::string names_of(const SealedPlan& sealed, const std::vector<const BlindServing*>& servings) {
  std::string names;
  for (std::size_t i = 0; i < servings.size() && i < named_at_most; ++i)
    names += (i == 0 ? "" : "; ") + serving_name(sealed, *servings[i]);
  if (servings.size() > named_at_most) names += "; and " + std::to_string(servings.size() - named_at_most) + " more";
  return names;
}

const KeyPair* find_key_pair(const Key& key, IdOf<Pair> id) {
  for (const auto& pair : key.pairs)
    if (pair.id == id) return &pair;
  return nullptr;
}

/// The void that a spare's pair was taken for.
const Void* void_behind(const Trial& trial, IdOf<Pair> spare_pair) {
  for (const auto& voided : trial.voids)
    if (voided.spare && *voided.spare < trial.key->spares.size() && trial.key->spares[*voided.spare].pair == spare_pair)
      return &voided;
  return nullptr;
}

Result<Pairing> join(const Trial& trial, const BlindServing& serving) {
  const std::string name = serving_name(*trial.sealed, serving);
  const auto pair = resolve_pair(trial, serving.pair);
  if (!pair) return fail(ErrorKind::damaged, "pair", serving.pair.text(), "a pair of the key", name);
  const bool b_left = serving.left == pair->code_b && serving.right == pair->code_a;
  const bool b_right = serving.right == pair->code_b && serving.left == pair->code_a;
  if (b_left == b_right)
    return fail(ErrorKind::damaged, "codes", serving.left.text() + " and " + serving.right.text(),
                pair->code_a.text() + " and " + pair->code_b.text(), name);
  const auto sheet = amended_sheet(trial, serving.id);
  if (!sheet || !sheet->locked) return fail(ErrorKind::damaged, "sheet", "not locked", "a locked sheet", name);

  Pairing out;
  out.serving = serving.id;
  out.assessor = serving.assessor;
  out.pair = serving.pair;
  out.kind = pair->kind;
  out.lot = pair->lot;
  out.set = pair->set;
  out.levels = {pair->level_a, pair->level_b};
  out.brew_a = pair->cup_a.brew;
  out.brew_b = pair->cup_b.brew;
  out.dilution_b = pair->cup_b.dilution;
  out.side_b = b_left ? Side::left : Side::right;
  out.first = sheet->sipped_first.value_or(serving.first);
  out.sitting = serving.sitting;
  out.place = serving.place;
  out.repeat_of = pair->repeat_of;
  out.sheet = sheet;
  for (const auto& exclusion : trial.exclusions) {
    if (exclusion.serving != serving.id) continue;
    const bool before = exclusion.at.utc_ms <= trial.unmasked->at.utc_ms;  // apply() keeps these two times in order
    (before ? out.excluded_before : out.excluded_after) = true;
  }
  return out;
}

std::shared_ptr<const Trial> with_amended_brews(const std::shared_ptr<const Trial>& trial) {
  const bool any =
      std::ranges::any_of(trial->amendments, [](const Amendment& a) { return a.target == Amendment::Target::brew; });
  if (!any) return trial;
  auto copy = std::make_shared<Trial>(*trial);
  for (auto& [id, brew] : copy->brews) brew = amended_brew(*trial, id);
  return copy;
}

}  // namespace

namespace {

/// Which of a spare's codes stands where the sealed pair's cup a stood: sides are kept when a pair is brewed again.
std::optional<BlindCode> stands_for_a(const Trial& trial, const KeyPair& sealed,
                                      const std::vector<const Void*>& steps) {
  const auto of_pair = [&](IdOf<Pair> pair, IdOf<Assessor> assessor) {
    return std::ranges::find_if(trial.servings, [&](const BlindServing& s) {
      return s.pair == pair && (assessor.empty() || s.assessor == assessor);
    });
  };
  const auto now = of_pair(trial.key->spares[*steps.front()->spare].pair, {});
  if (now == trial.servings.end()) return std::nullopt;
  const auto then = of_pair(sealed.id, now->assessor);
  if (then == trial.servings.end()) return std::nullopt;
  return then->left == sealed.code_a ? now->left : now->right;
}

}  // namespace

std::optional<KeyPair> resolve_pair(const Trial& trial, IdOf<Pair> pair) {
  if (!trial.key) return std::nullopt;
  // From the spare back to the sealed pair; a replacement may itself have been voided. Never more steps than voids, so
  // that records that point at each other come to an end.
  std::vector<const Void*> steps;
  IdOf<Pair> at = pair;
  while (find_key_pair(*trial.key, at) == nullptr) {
    const Void* step = void_behind(trial, at);
    if (step == nullptr || steps.size() >= trial.voids.size()) return std::nullopt;
    steps.push_back(step);
    at = step->pair;
  }
  KeyPair out = *find_key_pair(*trial.key, at);
  if (steps.empty()) return out;
  const Spare& spare = trial.key->spares[*steps.front()->spare];
  const bool one_brew = out.cup_a.brew == out.cup_b.brew;
  const bool a_is_one = stands_for_a(trial, out, steps) != spare.code_two;
  out.id = spare.pair;
  out.code_a = a_is_one ? spare.code_one : spare.code_two;
  out.code_b = a_is_one ? spare.code_two : spare.code_one;
  out.cup_a.brew = a_is_one || one_brew ? spare.brew_one : spare.brew_two;
  out.cup_b.brew = a_is_one && !one_brew ? spare.brew_two : spare.brew_one;
  return out;
}

Result<UnmaskRecord> unmask(const Trial& trial, std::string who, const Moment& now) {
  if (!trial.sealed || !trial.key)
    return fail(ErrorKind::not_allowed, "unmask", "not sealed", "a sealed trial with every sheet locked");
  if (trial.unmasked)
    return fail(ErrorKind::not_allowed, "unmask", "unmasked on " + date_text(trial.unmasked->at), "unmasking once");
  if (live_servings(trial).empty())
    return fail(ErrorKind::not_allowed, "unmask", "no pair left to taste", "at least one pair that is not voided");
  const auto open = open_sheets(trial);
  if (!open.empty())
    return fail(ErrorKind::not_allowed, "open sheets", names_of(*trial.sealed, open), "every sheet locked first");

  UnmaskRecord record;
  record.at = now;
  record.who = std::move(who);
  record.sheets_digest = sheets_digest(trial);
  record.plan_intact = plan_digest(*trial.sealed) == trial.sealed->plan_digest;
  record.key_intact = key_digest(*trial.key) == trial.sealed->key_digest;
  record.sheets_intact = std::ranges::all_of(trial.sheets, [](const auto& entry) {
    return !entry.second->locked || sheet_digest(*entry.second) == entry.second->digest;
  });
  return record;
}

Result<Unmasked> open_unmasked(const std::shared_ptr<const Trial>& trial) {
  if (!trial || !trial->unmasked)
    return fail(ErrorKind::not_allowed, "findings", "not unmasked", "a trial that has been unmasked");
  if (!trial->sealed || !trial->key) return fail(ErrorKind::damaged, "key", "absent", "an unmasked trial with its key");
  Unmasked out;
  for (const BlindServing* serving : live_servings(*trial)) {
    auto pairing = join(*trial, *serving);
    if (!pairing) return tl::unexpected<Error>(pairing.error());
    out.pairings_.push_back(std::move(*pairing));
  }
  out.trial_ = with_amended_brews(trial);
  return out;
}

}  // namespace likeleaf
