// Commands on a sheet until its lock, the guess after it, and the state of the day.
#include <algorithm>
#include <set>

#include "core/acts/amendment.h"
#include "core/acts/command_parts.h"
#include "core/acts/paper_entry.h"
#include "core/base/limits.h"
#include "core/base/number_text.h"
#include "core/codec/seal.h"

namespace likeleaf::commands {
namespace {

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

/// Is this a field of the plan, and does this mark (if any) belong in it?
Result<void> check_field(const Trial& trial, const BlindServing& serving, Side side, const std::string& field,
                         const std::optional<Mark>& mark) {
  const Attribute* attribute = planned_field(*trial.sealed, field);
  if (attribute == nullptr)
    return fail(ErrorKind::bad_value, "attribute", shown_value(field),
                "one of this plan: " + names_of(trial.sealed->attributes, false));
  if (!mark) return {};
  return check_mark(*attribute, *mark, mark_label(field, side == Side::left ? serving.left : serving.right));
}

Result<void> check_direct(const Trial& trial, const std::string& id) {
  const Attribute* attribute = find_attribute(trial.sealed->attributes, id);
  if (attribute != nullptr && attribute->direct) return {};
  return fail(ErrorKind::bad_value, "comparing sip", shown_value(id),
              "one of this plan: " + names_of(trial.sealed->attributes, true));
}

/// Puts (or takes away) what stands under a key; what stood there before.
template <class T>
std::optional<T> replace(std::map<std::string, T>& entries, const std::string& key, const std::optional<T>& value) {
  const auto old = entries.find(key);
  const auto before = old == entries.end() ? std::nullopt : std::optional<T>(old->second);
  if (value)
    entries.insert_or_assign(key, *value);
  else
    entries.erase(key);
  return before;
}

/// A sheet that a second entry can stand beside: typed in from paper, not locked.
Result<std::shared_ptr<const Sheet>> paper_sheet(const Trial& trial, IdOf<Serving> id) {
  const auto serving = open_serving(trial, id);
  if (!serving) return tl::unexpected<Error>(serving.error());
  const auto found = trial.sheets.find(id);
  const bool nothing = found == trial.sheets.end();
  if (!nothing && found->second->entered_by == EnteredBy::paper) return found->second;
  return fail(ErrorKind::not_allowed, "second entry", nothing ? "nothing is typed in yet" : "a sheet tasted on screen",
              "the second entry of a paper sheet whose first entry is there");
}

/// A paper sheet is locked when its two entries agree, and with fields entered only once when that was said.
Result<void> check_entries(const Trial& trial, const BlindServing& serving, const Sheet& sheet, bool said_once) {
  if (sheet.entered_by != EnteredBy::paper) return {};
  const LockReview found = review(*trial.sealed, serving, sheet);
  if (!found.mismatches.empty())
    return fail(ErrorKind::not_allowed, "lock", mismatch_text(found.mismatches),
                "the lock once both entries say the same");
  if (!found.once.empty() && !said_once)
    return fail(ErrorKind::not_allowed, "lock",
                std::to_string(found.once.size()) + (found.once.size() == 1 ? " field" : " fields") + " entered once",
                "the lock where paper sheets are typed in, once it is said that they were entered once");
  return {};
}

}  // namespace

Result<Change> run(const TrialPtr& trial, const StartSheet& command, const Moment& now) {
  const auto serving = open_serving(*trial, command.serving);
  if (!serving) return tl::unexpected<Error>(serving.error());
  Sheet sheet = sheet_now(*trial, command.serving, now);
  // A sheet on which something stands keeps its way: looking at a half-typed paper sheet does not make it another.
  if (!written_on(sheet)) sheet.entered_by = command.by;
  return with_sheet(trial, std::move(sheet), std::nullopt);
}

Result<Change> run(const TrialPtr& trial, const PutMark& command, const Moment& now) {
  const auto serving = open_serving(*trial, command.serving);
  if (!serving) return tl::unexpected<Error>(serving.error());
  if (auto fits = check_field(*trial, **serving, command.side, command.field, command.mark); !fits)
    return tl::unexpected<Error>(fits.error());

  Sheet sheet = sheet_now(*trial, command.serving, now);
  PutMark inverse = command;
  inverse.mark = replace(sheet.cup(command.side).marks, command.field, command.mark);
  if (inverse.mark == command.mark) return no_change(trial, Part::sheet, command.serving.text());
  return with_sheet(trial, std::move(sheet), inverse);
}

Result<Change> run(const TrialPtr& trial, const PutDirect& command, const Moment& now) {
  const auto serving = open_serving(*trial, command.serving);
  if (!serving) return tl::unexpected<Error>(serving.error());
  if (auto asked = check_direct(*trial, command.attribute); !asked) return tl::unexpected<Error>(asked.error());

  Sheet sheet = sheet_now(*trial, command.serving, now);
  PutDirect inverse = command;
  inverse.answer = replace(sheet.directs, command.attribute, command.answer);
  if (inverse.answer == command.answer) return no_change(trial, Part::sheet, command.serving.text());
  return with_sheet(trial, std::move(sheet), inverse);
}

Result<Change> run(const TrialPtr& trial, const PutSecondReading& command, const Moment&) {
  const auto typed = paper_sheet(*trial, command.serving);
  if (!typed) return tl::unexpected<Error>(typed.error());
  const BlindServing& serving = *find_serving(*trial, command.serving);
  if (auto fits = check_field(*trial, serving, command.side, command.field, command.mark); !fits)
    return tl::unexpected<Error>(fits.error());
  Sheet sheet = **typed;
  PutSecondReading inverse = command;
  inverse.mark = replace(sheet.second.cup(command.side), command.field, command.mark);
  return with_sheet(trial, std::move(sheet), inverse);
}

Result<Change> run(const TrialPtr& trial, const PutSecondAnswer& command, const Moment&) {
  const auto typed = paper_sheet(*trial, command.serving);
  if (!typed) return tl::unexpected<Error>(typed.error());
  if (auto asked = check_direct(*trial, command.attribute); !asked) return tl::unexpected<Error>(asked.error());
  Sheet sheet = **typed;
  PutSecondAnswer inverse = command;
  inverse.answer = replace(sheet.second.directs, command.attribute, command.answer);
  return with_sheet(trial, std::move(sheet), inverse);
}

Result<Change> run(const TrialPtr& trial, const SettleReading& command, const Moment&) {
  const auto typed = paper_sheet(*trial, command.serving);
  if (!typed) return tl::unexpected<Error>(typed.error());
  const BlindServing& serving = *find_serving(*trial, command.serving);
  for (const auto& mark : {command.first, command.second})
    if (auto fits = check_field(*trial, serving, command.side, command.field, mark); !fits)
      return tl::unexpected<Error>(fits.error());
  Sheet sheet = **typed;
  SettleReading inverse = command;
  inverse.first = replace(sheet.cup(command.side).marks, command.field, command.first);
  inverse.second = replace(sheet.second.cup(command.side), command.field, command.second);
  return with_sheet(trial, std::move(sheet), inverse);
}

Result<Change> run(const TrialPtr& trial, const SettleAnswer& command, const Moment&) {
  const auto typed = paper_sheet(*trial, command.serving);
  if (!typed) return tl::unexpected<Error>(typed.error());
  if (auto asked = check_direct(*trial, command.attribute); !asked) return tl::unexpected<Error>(asked.error());
  Sheet sheet = **typed;
  SettleAnswer inverse = command;
  inverse.first = replace(sheet.directs, command.attribute, command.first);
  inverse.second = replace(sheet.second.directs, command.attribute, command.second);
  return with_sheet(trial, std::move(sheet), inverse);
}

Result<Change> run(const TrialPtr& trial, const PutWords& command, const Moment& now) {
  const auto serving = open_serving(*trial, command.serving);
  if (!serving) return tl::unexpected<Error>(serving.error());
  if (command.words.size() > most_cup_words)
    return fail(ErrorKind::too_large, "aroma words", std::to_string(command.words.size()),
                "at most " + std::to_string(most_cup_words) + " words a cup");
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
  if (auto agreed = check_entries(*trial, **serving, sheet, command.entered_once); !agreed)
    return tl::unexpected<Error>(agreed.error());
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
