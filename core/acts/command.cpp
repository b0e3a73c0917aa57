// apply(): the dispatch, what several commands ask, the plan and its seal.
#include "core/acts/command.h"

#include <algorithm>
#include <set>

#include "core/acts/amendment.h"
#include "core/acts/command_parts.h"
#include "core/acts/paper_entry.h"
#include "core/base/line_text.h"
#include "core/base/number_text.h"
#include "core/codec/seal.h"
#include "core/codec/value_text.h"
#include "core/domain/limits.h"

namespace likeleaf {
namespace commands {
namespace {

template <class Name>
Result<void> check_named_text(const std::string& text, Name field, bool required) {
  if (const auto read = parse_lines(text, paragraph_length, {}); !read)
    return fail(read.error().kind, field, read.error().value, read.error().allowed);
  const bool blank = std::ranges::all_of(text, [](char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; });
  if (required && blank) return fail(ErrorKind::missing, field, "", "a few words");
  return {};
}

}  // namespace

Change change(std::shared_ptr<Trial> next, Part part, std::string record) {
  return {std::move(next), {part, std::move(record)}, std::nullopt, std::nullopt, true};
}

Change no_change(const TrialPtr& trial, Part part, std::string record) {
  return {trial, {part, std::move(record)}, std::nullopt, std::nullopt, false};
}

Result<void> needs_seal(const Trial& trial, const char* act) {
  if (trial.sealed) return {};
  return fail(ErrorKind::not_allowed, act, "not sealed", "this after the plan is sealed");
}

Result<void> needs_mask(const Trial& trial, const char* act, const char* instead) {
  if (auto sealed = needs_seal(trial, act); !sealed) return sealed;
  if (!trial.unmasked) return {};
  return fail(ErrorKind::not_allowed, act, "unmasked", instead);
}

Result<void> check_text(const std::string& text, const char* field, bool required) {
  return check_named_text(text, field, required);
}
Result<void> check_text(const std::string& text, Field field, bool required) {
  return check_named_text(text, field, required);
}

const BlindServing* find_serving(const Trial& trial, IdOf<Serving> id) {
  for (const auto& serving : trial.servings)
    if (serving.id == id) return &serving;
  return nullptr;
}

bool is_voided(const Trial& trial, IdOf<Pair> pair) {
  return std::ranges::any_of(trial.voids, [&](const Void& voided) { return voided.pair == pair; });
}

Result<Change> run(const TrialPtr& trial, const SetPlan& command, const Moment&) {
  if (trial->sealed)
    return fail(ErrorKind::not_allowed, "plan", "sealed on " + date_text(trial->sealed->sealed),
                "changes until the seal; afterwards a note on the plan, with a reason");
  Plan plan = command.plan;
  plan.id = trial->draft.id;
  plan.number = trial->draft.number;
  if (plan == trial->draft) return no_change(trial, Part::plan);
  // What the codec would not read back must not get in: the draft is kept as typed, even where it is still wrong.
  if (const auto good = codec::readable(plan); !good) return tl::unexpected<Error>(good.error());
  if (const auto good = within_limits(plan, PlanState::draft); !good) return tl::unexpected<Error>(good.error());
  auto next = copy_of(trial);
  next->draft = std::move(plan);
  Change out = change(std::move(next), Part::plan);
  out.inverse = SetPlan{trial->draft};
  out.scope = Scope{Scope::Kind::plan, ""};
  return out;
}

namespace {

/// The deal's own promises, checked once more where they become the trial: a serving that the key cannot open would
/// only be noticed at unmask.
Result<void> check_deal(const ApplySeal& seal) {
  const Key& key = *seal.key;
  std::set<IdOf<Brew>> brews;
  for (const auto& brew : key.brews) brews.insert(brew.id);
  for (const auto& pair : key.pairs)
    if (!brews.contains(pair.cup_a.brew) || !brews.contains(pair.cup_b.brew))
      return fail(ErrorKind::internal, "key", pair.id.text(), "cups of planned brews");
  for (const auto& serving : seal.servings) {
    const auto pair = std::ranges::find(key.pairs, serving.pair, &KeyPair::id);
    if (pair == key.pairs.end()) return fail(ErrorKind::internal, "serving", serving.id.text(), "a pair of the key");
    const bool codes = (serving.left == pair->code_a && serving.right == pair->code_b) ||
                       (serving.left == pair->code_b && serving.right == pair->code_a);
    if (!codes) return fail(ErrorKind::internal, "serving", serving.id.text(), "the codes of its pair");
  }
  return {};
}

Brew brew_to_come(const PlannedBrew& planned) {
  Brew brew;
  brew.id = planned.id;
  brew.number = planned.number;
  brew.lot = planned.lot;
  brew.level = planned.level;
  brew.set = planned.set;
  brew.sitting = planned.sitting;
  brew.portion = planned.portion;
  return brew;
}

}  // namespace

Result<Change> run(const TrialPtr& trial, const ApplySeal& command, const Moment&) {
  if (trial->sealed)
    return fail(ErrorKind::not_allowed, "seal", "sealed on " + date_text(trial->sealed->sealed), "sealing once");
  if (!command.sealed || !command.key) return fail(ErrorKind::internal, "seal", "", "a sealed plan and its key");
  if (command.sealed->plan.id != trial->draft.id || command.sealed->plan.number != trial->draft.number)
    return fail(ErrorKind::conflict, "seal", command.sealed->plan.id.text(), "the plan of this trial");
  if (command.servings.empty()) return fail(ErrorKind::missing, "servings", "", "at least one pair for one assessor");
  SealedPlan sealed = *command.sealed;
  Key key = *command.key;
  take_digests(sealed, key);
  if (sealed != *command.sealed || key != *command.key)
    return fail(ErrorKind::internal, "seal", "", "the digests of this plan and this key");
  if (auto deal = check_deal(command); !deal) return tl::unexpected<Error>(deal.error());

  auto next = copy_of(trial);
  next->draft = command.sealed->plan;
  next->sealed = command.sealed;
  next->key = command.key;
  next->servings = command.servings;
  for (const auto& planned : command.key->brews)
    next->brews[planned.id] = std::make_shared<const Brew>(brew_to_come(planned));
  return change(std::move(next), Part::seal);
}

}  // namespace commands

Result<Change> apply(const std::shared_ptr<const Trial>& trial, const Command& command, const Moment& now) {
  if (!trial) return fail(ErrorKind::not_found, "trial", "", "a trial on the bench");
  return std::visit([&](const auto& one) { return commands::run(trial, one, now); }, command);
}

namespace {

/// Does the direct answer say otherwise than the two scores? Equal scores never contradict: the comparing sip is finer.
/// "Can't tell" does where the scores lie a whole margin apart.
bool contradicts(Direct answer, Score left, Score right, std::int64_t margin) {
  const int more_left = left.halves() - right.halves();
  switch (answer) {
    case Direct::left_more:
      return more_left < 0;
    case Direct::right_more:
      return more_left > 0;
    case Direct::cannot_tell:
      return std::max<std::int64_t>(margin, 1) <= std::abs(more_left);
  }
  return false;
}

const Score* score_in(const CupMarks& cup, const std::string& field) {
  const auto found = cup.marks.find(field);
  return found == cup.marks.end() ? nullptr : std::get_if<Score>(&found->second);
}

std::int64_t planned_margin(const SealedPlan& plan, const Attribute& attribute) {
  const auto planned = std::ranges::find(plan.plan.attributes, attribute.id, &PlanAttribute::attribute);
  return planned == plan.plan.attributes.end() ? attribute.margin : planned->margin;
}

}  // namespace

LockReview review(const SealedPlan& plan, const BlindServing& serving, const Sheet& sheet) {
  LockReview out;
  for (const Side side : {Side::left, Side::right})
    for (const auto& attribute : plan.attributes)
      for (const auto& field : mark_fields(attribute))
        if (!sheet.cup(side).marks.contains(field)) out.blank.push_back({side, field});
  for (const auto& attribute : plan.attributes) {
    const auto answer = sheet.directs.find(attribute.id);
    if (attribute.direct && answer == sheet.directs.end()) out.unanswered.push_back(attribute.id);
    if (attribute.scale != Scale::intensity || answer == sheet.directs.end()) continue;
    const Score* left = score_in(sheet.left, attribute.id);
    const Score* right = score_in(sheet.right, attribute.id);
    if (left != nullptr && right != nullptr &&
        contradicts(answer->second, *left, *right, planned_margin(plan, attribute)))
      out.contradictions.push_back(attribute.id);
  }
  if (sheet.entered_by == EnteredBy::paper) compare_entries(plan.attributes, serving, sheet, out);
  return out;
}

}  // namespace likeleaf
