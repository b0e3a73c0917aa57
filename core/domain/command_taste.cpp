// Commands on a sheet until its lock, the guess after it, and the state of the day.
#include <algorithm>
#include <set>

#include "core/base/number_text.h"
#include "core/domain/amendment.h"
#include "core/domain/command_parts.h"
#include "core/domain/seal.h"

namespace likeleaf::commands {
namespace {

constexpr std::size_t most_words = 200;  ///< aroma words of one cup: more than the whole lexicon has

/// The serving of a sheet that may be written on.
Result<const BlindServing*> open_serving(const Trial& trial, IdOf<Serving> id) {
  if (auto mask = needs_mask(trial, "sheet", "an amendment with a reason"); !mask)
    return tl::unexpected<Error>(mask.error());
  const BlindServing* serving = find_serving(trial, id);
  if (serving == nullptr) return fail(ErrorKind::not_found, "serving", id.text(), "a serving of this trial");
  const std::string cups = serving->left.text() + " and " + serving->right.text();
  if (is_voided(trial, serving->pair))
    return fail(ErrorKind::not_allowed, "sheet", "cups " + cups + ", voided", "the pair that was brewed again");
  const auto sheet = trial.sheets.find(id);
  if (sheet != trial.sheets.end() && sheet->second->locked)
    return fail(ErrorKind::not_allowed, "sheet", "cups " + cups + ", locked", "an amendment with a reason");
  return serving;
}

/// The sheet as it stands, or a fresh one that is started now.
Sheet sheet_now(const Trial& trial, IdOf<Serving> id, const Moment& now) {
  const auto found = trial.sheets.find(id);
  if (found != trial.sheets.end()) return *found->second;
  Sheet fresh;
  fresh.serving = id;
  fresh.started = now;
  return fresh;
}

Change with_sheet(const TrialPtr& trial, Sheet sheet, std::optional<Command> inverse) {
  const std::string record = sheet.serving.text();
  const auto found = trial->sheets.find(sheet.serving);
  if (found != trial->sheets.end() && *found->second == sheet) return no_change(trial, Part::sheet, record);
  auto next = copy_of(trial);
  const auto id = sheet.serving;
  next->sheets[id] = std::make_shared<const Sheet>(std::move(sheet));
  Change out = change(std::move(next), Part::sheet, record);
  if (inverse) {
    out.inverse = std::move(inverse);
    out.scope = Scope{Scope::Kind::sheet, record};
  }
  return out;
}

std::string names_of(const std::vector<Attribute>& attributes, bool direct_only) {
  std::string names;
  for (const auto& attribute : attributes) {
    if (direct_only && !attribute.direct) continue;
    if (direct_only) {
      names += (names.empty() ? "" : ", ") + attribute.id;
      continue;
    }
    for (const auto& field : mark_fields(attribute)) names += (names.empty() ? "" : ", ") + field;
  }
  return names;
}

/// Does this answer belong on this scale?
Result<void> check_mark(const Attribute& attribute, const Mark& mark, const std::string& label) {
  if (std::holds_alternative<NoScore>(mark)) return {};
  const bool timed = attribute.scale == Scale::seconds;
  if (timed == std::holds_alternative<FinishTime>(mark)) return {};
  return fail(ErrorKind::bad_value, label, mark_text(mark),
              timed ? "whole seconds, 0 to 600" : "0 to 10 in half steps");
}

}  // namespace

Result<Change> run(const TrialPtr& trial, const StartSheet& command, const Moment& now) {
  const auto serving = open_serving(*trial, command.serving);
  if (!serving) return tl::unexpected<Error>(serving.error());
  Sheet sheet = sheet_now(*trial, command.serving, now);
  sheet.entered_by = command.by;
  return with_sheet(trial, std::move(sheet), std::nullopt);
}

Result<Change> run(const TrialPtr& trial, const PutMark& command, const Moment& now) {
  const auto serving = open_serving(*trial, command.serving);
  if (!serving) return tl::unexpected<Error>(serving.error());
  const Attribute* attribute = planned_field(*trial->sealed, command.field);
  if (attribute == nullptr)
    return fail(ErrorKind::bad_value, "attribute", shown_value(command.field),
                "one of this plan: " + names_of(trial->sealed->attributes, false));
  const BlindCode cup = command.side == Side::left ? (*serving)->left : (*serving)->right;
  if (command.mark)
    if (auto fits = check_mark(*attribute, *command.mark, mark_label(command.field, cup)); !fits)
      return tl::unexpected<Error>(fits.error());

  Sheet sheet = sheet_now(*trial, command.serving, now);
  auto& marks = sheet.cup(command.side).marks;
  const auto old = marks.find(command.field);
  PutMark inverse = command;
  inverse.mark = old == marks.end() ? std::nullopt : std::optional(old->second);
  if (inverse.mark == command.mark) return no_change(trial, Part::sheet, command.serving.text());
  if (command.mark)
    marks.insert_or_assign(command.field, *command.mark);
  else
    marks.erase(command.field);
  return with_sheet(trial, std::move(sheet), inverse);
}

Result<Change> run(const TrialPtr& trial, const PutDirect& command, const Moment& now) {
  const auto serving = open_serving(*trial, command.serving);
  if (!serving) return tl::unexpected<Error>(serving.error());
  const Attribute* attribute = find_attribute(trial->sealed->attributes, command.attribute);
  if (attribute == nullptr || !attribute->direct)
    return fail(ErrorKind::bad_value, "comparing sip", shown_value(command.attribute),
                "one of this plan: " + names_of(trial->sealed->attributes, true));

  Sheet sheet = sheet_now(*trial, command.serving, now);
  const auto old = sheet.directs.find(command.attribute);
  PutDirect inverse = command;
  inverse.answer = old == sheet.directs.end() ? std::nullopt : std::optional(old->second);
  if (inverse.answer == command.answer) return no_change(trial, Part::sheet, command.serving.text());
  if (command.answer)
    sheet.directs[command.attribute] = *command.answer;
  else
    sheet.directs.erase(command.attribute);
  return with_sheet(trial, std::move(sheet), inverse);
}

Result<Change> run(const TrialPtr& trial, const PutWords& command, const Moment& now) {
  const auto serving = open_serving(*trial, command.serving);
  if (!serving) return tl::unexpected<Error>(serving.error());
  if (command.words.size() > most_words)
    return fail(ErrorKind::too_large, "aroma words", std::to_string(command.words.size()),
                "at most " + std::to_string(most_words) + " words a cup");
  std::set<std::string> seen;
  for (const auto& word : command.words) {
    if (auto text = check_text(word.word, "aroma word", true); !text) return tl::unexpected<Error>(text.error());
    if (word.strength && (*word.strength < 1 || *word.strength > 3))
      return fail(ErrorKind::bad_value, "strength of " + shown_value(word.word), std::to_string(*word.strength),
                  "1, 2, 3 or nothing");
    if (!seen.insert(word.word).second)
      return fail(ErrorKind::duplicate, "aroma word", shown_value(word.word), "each word once a cup");
  }
  Sheet sheet = sheet_now(*trial, command.serving, now);
  auto& words = sheet.cup(command.side).words;
  if (words == command.words) return no_change(trial, Part::sheet, command.serving.text());
  const PutWords inverse{command.serving, command.side, words};
  words = command.words;
  return with_sheet(trial, std::move(sheet), inverse);
}

Result<Change> run(const TrialPtr& trial, const PutFault& command, const Moment& now) {
  const auto serving = open_serving(*trial, command.serving);
  if (!serving) return tl::unexpected<Error>(serving.error());
  if (auto text = check_text(command.note, "fault note"); !text) return tl::unexpected<Error>(text.error());
  Sheet sheet = sheet_now(*trial, command.serving, now);
  CupMarks& cup = sheet.cup(command.side);
  if (cup.fault == command.fault && cup.fault_note == command.note)
    return no_change(trial, Part::sheet, command.serving.text());
  const PutFault inverse{command.serving, command.side, cup.fault, cup.fault_note};
  cup.fault = command.fault;
  cup.fault_note = command.note;
  return with_sheet(trial, std::move(sheet), inverse);
}

Result<Change> run(const TrialPtr& trial, const PutSheetNote& command, const Moment& now) {
  const auto serving = open_serving(*trial, command.serving);
  if (!serving) return tl::unexpected<Error>(serving.error());
  if (auto text = check_text(command.note, "note"); !text) return tl::unexpected<Error>(text.error());
  Sheet sheet = sheet_now(*trial, command.serving, now);
  if (sheet.note == command.note) return no_change(trial, Part::sheet, command.serving.text());
  const PutSheetNote inverse{command.serving, sheet.note};
  sheet.note = command.note;
  return with_sheet(trial, std::move(sheet), inverse);
}

Result<Change> run(const TrialPtr& trial, const PutSippedFirst& command, const Moment& now) {
  const auto serving = open_serving(*trial, command.serving);
  if (!serving) return tl::unexpected<Error>(serving.error());
  Sheet sheet = sheet_now(*trial, command.serving, now);
  if (sheet.sipped_first == command.side) return no_change(trial, Part::sheet, command.serving.text());
  const PutSippedFirst inverse{command.serving, sheet.sipped_first};
  sheet.sipped_first = command.side;
  return with_sheet(trial, std::move(sheet), inverse);
}

Result<Change> run(const TrialPtr& trial, const LockSheet& command, const Moment& now) {
  const auto serving = open_serving(*trial, command.serving);
  if (!serving) return tl::unexpected<Error>(serving.error());
  Sheet sheet = sheet_now(*trial, command.serving, now);
  sheet.locked = now;
  sheet.digest = sheet_digest(sheet);
  return with_sheet(trial, std::move(sheet), std::nullopt);
}

Result<Change> run(const TrialPtr& trial, const PutGuess& command, const Moment&) {
  if (auto mask = needs_mask(*trial, "guess", "guesses until the unmasking"); !mask)
    return tl::unexpected<Error>(mask.error());
  if (find_serving(*trial, command.serving) == nullptr)
    return fail(ErrorKind::not_found, "serving", command.serving.text(), "a serving of this trial");
  const auto found = trial->sheets.find(command.serving);
  if (found == trial->sheets.end() || !found->second->locked)
    return fail(ErrorKind::not_allowed, "guess", "sheet not locked", "a guess after the sheet is locked");
  if (found->second->guess == command.guess) return no_change(trial, Part::sheet, command.serving.text());
  if (found->second->guess) return fail(ErrorKind::not_allowed, "guess", "already answered", "one guess a pair");
  Sheet sheet = *found->second;
  sheet.guess = command.guess;
  return with_sheet(trial, std::move(sheet), std::nullopt);
}

Result<Change> run(const TrialPtr& trial, const PutDayState& command, const Moment& now) {
  if (auto mask = needs_mask(*trial, "state of the day", "notes on the day until the unmasking"); !mask)
    return tl::unexpected<Error>(mask.error());
  const auto is_theirs = [&](const BlindServing& serving) {
    return serving.assessor == command.state.assessor && serving.sitting == command.state.sitting;
  };
  if (std::ranges::none_of(trial->servings, is_theirs))
    return fail(ErrorKind::not_found, "state of the day", "sitting " + std::to_string(command.state.sitting),
                "a sitting in which this assessor tastes");
  if (auto text = check_text(command.state.note, "note on the day"); !text) return tl::unexpected<Error>(text.error());

  DayState state = command.state;
  state.noted = now;
  const std::string record = state.assessor.text();
  const auto same_day = [&](const DayState& day) {
    return day.assessor == state.assessor && day.sitting == state.sitting;
  };
  const auto old = std::ranges::find_if(trial->days, same_day);
  auto next = copy_of(trial);
  if (old == trial->days.end()) {
    next->days.push_back(state);
    return change(std::move(next), Part::day, record);
  }
  DayState as_before = state;
  as_before.noted = old->noted;
  if (as_before == *old) return no_change(trial, Part::day, record);
  next->days[static_cast<std::size_t>(old - trial->days.begin())] = state;
  return change(std::move(next), Part::day, record);
}

}  // namespace likeleaf::commands
