// Commands that leave a reasoned record: voids, exclusions, amendments, the unmasking, the adopted rule.
#include <algorithm>

#include "core/acts/agreed_words.h"
#include "core/acts/amendment.h"
#include "core/acts/command_parts.h"
#include "core/acts/unmask.h"
#include "core/base/digest.h"
#include "core/base/entropy.h"
#include "core/base/number_text.h"

namespace likeleaf::commands {
namespace {

Result<void> check_reason(const std::string& who, const std::string& why) {
  if (auto name = check_text(who, Field::who, true); !name) return name;
  return check_text(why, Field::reason, true);
}

/// Ids of replacement servings follow from the spare, which was sealed with random ids: apply() stays a pure function,
/// and the ids say nothing that the sealed ones did not.
class DerivedId final : public Entropy {
 public:
  explicit DerivedId(const std::string& from) : digest_(Digest::of(from)) {}
  void fill(std::span<std::uint8_t> bytes) override {
    for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = digest_.bytes()[i % digest_.bytes().size()];
  }

 private:
  Digest digest_;
};

bool is_preparer(const SealedPlan& sealed, const std::string& who) {
  return std::ranges::any_of(sealed.plan.assessors, [&](const PlanAssessor& person) {
    if (person.role != Role::preparer) return false;
    const Assessor* assessor = find_record(sealed.registers.assessors, person.id);
    return who == person.id.text() || (assessor != nullptr && who == assessor->alias);
  });
}

bool any_sheet_locked(const Trial& trial, IdOf<Pair> pair) {
  return std::ranges::any_of(trial.servings, [&](const BlindServing& serving) {
    const auto sheet = trial.sheets.find(serving.id);
    return serving.pair == pair && sheet != trial.sheets.end() && sheet->second->locked;
  });
}

/// The first spare that no void has taken.
std::optional<std::size_t> next_spare(const Trial& trial) {
  std::size_t next = 0;
  for (const auto& voided : trial.voids)
    if (voided.spare) next = std::max(next, *voided.spare + 1);
  return next < trial.key->spares.size() ? std::optional(next) : std::nullopt;
}

int brew_number(const Trial& trial, IdOf<Brew> id) {
  const auto found = trial.brews.find(id);
  return found == trial.brews.end() ? 0 : found->second->number;
}

void add_brew(Trial& trial, IdOf<Brew> like, IdOf<Brew> id) {
  if (trial.brews.contains(id)) return;  // both cups of the pair from one pot
  Brew brew;
  brew.id = id;
  if (const auto found = trial.brews.find(like); found != trial.brews.end()) {
    brew.lot = found->second->lot;
    brew.level = found->second->level;
    brew.set = found->second->set;
    brew.sitting = found->second->sitting;
  }
  int number = 0, portion = 0;
  for (const auto& [other, made] : trial.brews) {
    number = std::max(number, made->number);
    if (made->lot == brew.lot) portion = std::max(portion, made->portion);
  }
  brew.number = number + 1;
  brew.portion = portion + 1;
  trial.brews[id] = std::make_shared<const Brew>(std::move(brew));
}

/// Brews to make again, poured in the order of the voided pair's, so that the balance of pour order stays as sealed.
void add_brews(Trial& trial, const KeyPair& old, const KeyPair& fresh) {
  const bool a_first = brew_number(trial, old.cup_a.brew) <= brew_number(trial, old.cup_b.brew);
  if (a_first) add_brew(trial, old.cup_a.brew, fresh.cup_a.brew);
  add_brew(trial, old.cup_b.brew, fresh.cup_b.brew);
  if (!a_first) add_brew(trial, old.cup_a.brew, fresh.cup_a.brew);
}

/// The same assessors, places and sides, under the spare's codes. Which code goes where is told by the codes on the
/// table alone, the lower one's cup gets the spare's first: were it told by the levels, a void would show a taster
/// something of the key.
void add_servings(Trial& trial, IdOf<Pair> old, const Spare& spare) {
  std::vector<BlindServing> added;
  for (const auto& serving : trial.servings) {
    if (serving.pair != old) continue;
    const bool left_is_lower = serving.left < serving.right;
    BlindServing again = serving;
    DerivedId entropy(spare.pair.text() + " " + serving.id.text());
    again.id = IdOf<Serving>::make(entropy);
    again.pair = spare.pair;
    again.left = left_is_lower ? spare.code_one : spare.code_two;
    again.right = left_is_lower ? spare.code_two : spare.code_one;
    again.instead_of = old;
    added.push_back(again);
  }
  trial.servings.insert(trial.servings.end(), added.begin(), added.end());
}

}  // namespace

Result<Change> run(const TrialPtr& trial, const VoidPair& command, const Moment& now) {
  if (auto mask = needs_mask(*trial, "voiding a pair", "an exclusion with a reason"); !mask)
    return tl::unexpected<Error>(mask.error());
  if (auto reason = check_reason(command.who, command.why); !reason) return tl::unexpected<Error>(reason.error());
  const auto pair = resolve_pair(*trial, command.pair);
  if (!pair) return fail(ErrorKind::not_found, "pair", command.pair.text(), "a pair of this trial");
  const std::string cups =
      "cups " + std::min(pair->code_a, pair->code_b).text() + " and " + std::max(pair->code_a, pair->code_b).text();
  if (is_voided(*trial, command.pair))
    return fail(ErrorKind::duplicate, "voiding a pair", cups + ", already voided", "a pair that is still on the table");
  // The preparer knows what the pair holds: once a score stands, taking the pair out could be taking a result out.
  if (is_preparer(*trial->sealed, command.who) && any_sheet_locked(*trial, command.pair))
    return fail(ErrorKind::not_allowed, "voiding a pair", cups + ", a sheet is locked",
                "the preparer until the first lock; afterwards someone who does not know the key");

  auto next = copy_of(trial);
  // A warm-up is not counted, so it is not brewed again.
  const auto spare = pair->kind == PairKind::warm_up ? std::nullopt : next_spare(*trial);
  next->voids.push_back({command.pair, command.who, command.why, now, spare});
  if (spare) {
    add_servings(*next, pair->id, trial->key->spares[*spare]);
    const auto fresh = resolve_pair(*next, trial->key->spares[*spare].pair);
    if (!fresh) return fail(ErrorKind::internal, "spare", std::to_string(*spare));
    add_brews(*next, *pair, *fresh);
  }
  return change(std::move(next), Part::voids, command.pair.text());
}

Result<Change> run(const TrialPtr& trial, const Exclude& command, const Moment& now) {
  if (auto sealed = needs_seal(*trial, "exclusion"); !sealed) return tl::unexpected<Error>(sealed.error());
  if (auto reason = check_reason(command.who, command.why); !reason) return tl::unexpected<Error>(reason.error());
  const BlindServing* serving = find_serving(*trial, command.serving);
  if (serving == nullptr)
    return fail(ErrorKind::not_found, "serving", command.serving.text(), "a serving of this trial");
  const std::string cups = "cups " + serving->left.text() + " and " + serving->right.text();
  if (is_voided(*trial, serving->pair))
    return fail(ErrorKind::not_allowed, "exclusion", cups + ", voided", "a sheet of a pair that counts");
  if (std::ranges::any_of(trial->exclusions, [&](const Exclusion& e) { return e.serving == command.serving; }))
    return fail(ErrorKind::duplicate, "exclusion", cups + ", already excluded", "each sheet once");
  Moment at = now;
  // Before or after the unmasking is told by these two times, even when somebody has put the clock back.
  if (trial->unmasked) at.utc_ms = std::max(at.utc_ms, trial->unmasked->at.utc_ms + 1);
  auto next = copy_of(trial);
  next->exclusions.push_back({command.serving, command.who, command.why, at});
  return change(std::move(next), Part::exclusions, command.serving.text());
}

Result<Change> run(const TrialPtr& trial, const Amend& command, const Moment& now) {
  if (auto sealed = needs_seal(*trial, "amendment"); !sealed) return tl::unexpected<Error>(sealed.error());
  if (auto reason = check_reason(command.amendment.who, command.amendment.why); !reason)
    return tl::unexpected<Error>(reason.error());
  if (auto text = check_text(command.amendment.new_value, Field::new_value); !text)
    return tl::unexpected<Error>(text.error());
  if (auto text = check_text(command.amendment.field, "field", true); !text) return tl::unexpected<Error>(text.error());
  // Words agreed after tasting has begun would not be what the tasters had in mind.
  if (command.amendment.target == Amendment::Target::plan_note && command.amendment.field == agreed_words_field &&
      !words_still_open(*trial))
    return fail(ErrorKind::not_allowed, agreed_words_field, {}, "until the first sheet of the first sitting is begun");
  auto amendment = completed(*trial, command.amendment);
  if (!amendment) return tl::unexpected<Error>(amendment.error());
  const std::string record = !amendment->serving.empty() ? amendment->serving.text()
                             : !amendment->brew.empty()  ? amendment->brew.text()
                                                         : "";
  if (amendment->old_value == amendment->new_value) return no_change(trial, Part::amendments, record);
  amendment->at = now;
  auto next = copy_of(trial);
  next->amendments.push_back(std::move(*amendment));
  return change(std::move(next), Part::amendments, record);
}

Result<Change> run(const TrialPtr& trial, const Unmask& command, const Moment& now) {
  if (auto who = check_text(command.who, Field::who, true); !who) return tl::unexpected<Error>(who.error());
  Moment at = now;
  for (const auto& exclusion : trial->exclusions) at.utc_ms = std::max(at.utc_ms, exclusion.at.utc_ms);
  auto record = unmask(*trial, command.who, at);
  if (!record) return tl::unexpected<Error>(record.error());
  auto next = copy_of(trial);
  next->unmasked = std::move(*record);
  return change(std::move(next), Part::unmask);
}

Result<Change> run(const TrialPtr& trial, const AdoptRule& command, const Moment& now) {
  if (!trial->unmasked)
    return fail(ErrorKind::not_allowed, Field::house_rule, "not unmasked",
                "a rule from a trial that has been unmasked");
  AdoptedRule rule = command.rule;
  if (auto text = check_text(rule.sentence, Field::house_rule, true); !text) return tl::unexpected<Error>(text.error());
  if (auto text = check_text(rule.who, Field::who, true); !text) return tl::unexpected<Error>(text.error());
  if (auto text = check_text(rule.why, Field::reason, rule.left); !text) return tl::unexpected<Error>(text.error());
  if (rule.left && (!rule.from_when.empty() || !rule.review.empty() || rule.counter_checked))
    return fail(ErrorKind::not_allowed, Field::house_rule, "left, with a day or a check",
                "a rule that is left has neither");
  if (auto text = check_text(rule.from_when, Field::from_when); !text) return tl::unexpected<Error>(text.error());
  if (auto text = check_text(rule.review, Field::review_date); !text) return tl::unexpected<Error>(text.error());
  for (const auto& leaf : rule.leaves)
    if (std::ranges::find(trial->sealed->plan.lots, leaf) == trial->sealed->plan.lots.end())
      return fail(ErrorKind::not_found, "leaf", leaf.text(), "lots of this trial");
  rule.at = trial->rule ? trial->rule->at : now;
  if (trial->rule == rule) return no_change(trial, Part::rule);
  rule.at = now;
  auto next = copy_of(trial);
  next->rule = std::move(rule);
  return change(std::move(next), Part::rule);
}

}  // namespace likeleaf::commands
