#include "core/acts/agreed_words.h"

#include <algorithm>

#include "core/base/line_text.h"

namespace likeleaf {

std::string agreed_words(const Trial& trial) {
  const Plan& plan = trial.sealed ? trial.sealed->plan : trial.draft;
  std::string out = plan.reference_pair ? plan.reference_pair->words : std::string();
  for (const auto& note : trial.amendments)
    if (note.target == Amendment::Target::plan_note && note.field == agreed_words_field) out = note.new_value;
  return out;
}

bool words_still_open(const Trial& trial) {
  return std::ranges::none_of(trial.sheets, [](const auto& entry) { return entry.second->started.has_value(); });
}

Result<Command> keep_agreed_words(const Trial& trial, const std::string& words) {
  if (!words_still_open(trial))
    return fail(ErrorKind::not_allowed, agreed_words_field, {}, "until the first sheet of the first sitting is begun");
  const auto text = parse_lines(words, paragraph_length, agreed_words_field);
  if (!text) return tl::unexpected<Error>(text.error());
  if (!trial.sealed) {
    Plan plan = trial.draft;
    if (!plan.reference_pair) plan.reference_pair.emplace();
    plan.reference_pair->words = *text;
    plan.reference_pair->held = !text->empty();
    return Command(SetPlan{std::move(plan)});
  }
  if (text->empty()) return fail(ErrorKind::missing, agreed_words_field, {}, "what the panel agreed on");
  Amendment note;
  note.target = Amendment::Target::plan_note;
  note.field = agreed_words_field;
  note.new_value = *text;
  note.who = "the panel";
  note.why = "agreed in the open on the reference pair, before the first sitting";
  return Command(Amend{std::move(note)});
}

}  // namespace likeleaf
