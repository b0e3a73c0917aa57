#include "core/store/rows.h"

#include <algorithm>

#include "core/codec/value_text.h"

namespace likeleaf::store {

namespace {

template <class T>
std::string document(const T& value) {
  return codec::text_of(value);
}

template <class T>
std::optional<std::string> document_or_null(const std::optional<T>& value) {
  if (!value) return std::nullopt;
  return document(*value);
}

template <class T>
std::size_t same_start(const std::vector<T>& old_list, const std::vector<T>& new_list) {
  const auto n = std::min(old_list.size(), new_list.size());
  std::size_t same = 0;
  while (same < n && old_list[same] == new_list[same]) ++same;
  return same;
}

void put_draft(Connection& db, const Trial* before, const Trial& after,
               const std::optional<std::string>& import_digest) {
  if (before != nullptr && before->draft == after.draft) return;
  const Plan& plan = after.draft;
  if (before == nullptr)
    // Nobody reads `changes`: what changes is said from the draft.
    run(db,
        "INSERT INTO trial (id, number, position, question, changes, lever, created, import_digest, draft) "
        "VALUES (?, ?, (SELECT coalesce(max(position), 0) + 1 FROM trial), ?, '', ?, ?, ?, ?)",
        plan.id, plan.number, plan.question, codec::word_of(plan.lever.kind), after.created, import_digest,
        document(plan));
  else
    run(db, "UPDATE trial SET number = ?, question = ?, changes = '', lever = ?, draft = ? WHERE id = ?", plan.number,
        plan.question, codec::word_of(plan.lever.kind), document(plan), plan.id);
  if (before == nullptr || before->draft.lots != plan.lots) {
    run(db, "DELETE FROM trial_lot WHERE trial = ?", plan.id);
    for (std::size_t i = 0; i < plan.lots.size(); ++i)
      run(db, "INSERT INTO trial_lot (trial, lot, position) VALUES (?, ?, ?)", plan.id, plan.lots[i], i);
  }
  if (before == nullptr || before->draft.assessors != plan.assessors) {
    run(db, "DELETE FROM trial_assessor WHERE trial = ?", plan.id);
    for (std::size_t i = 0; i < plan.assessors.size(); ++i)
      if (plan.assessors[i].role != Role::preparer)
        run(db, "INSERT INTO trial_assessor (trial, assessor, position) VALUES (?, ?, ?)", plan.id,
            plan.assessors[i].id, i);
  }
}

void put_seal(Connection& db, const Trial* before, const Trial& after) {
  if (after.sealed && (before == nullptr || !before->sealed)) {
    const SealedPlan& sealed = *after.sealed;
    run(db,
        "INSERT INTO seal (trial, sealed, plan_digest, key_digest, paper_import, document) VALUES (?, ?, ?, ?, ?, ?)",
        after.id(), sealed.sealed, sealed.plan_digest.hex(), sealed.key_digest.hex(), sealed.paper_import,
        document(sealed));
  }
  // A solo taster's key may come after the sheets, so the two are looked at apart.
  if (after.key && (before == nullptr || !before->key))
    run(db, "INSERT INTO trial_key (trial, document) VALUES (?, ?)", after.id(), document(*after.key));
  for (std::size_t i = before == nullptr ? 0 : before->servings.size(); i < after.servings.size(); ++i) {
    const BlindServing& serving = after.servings[i];
    run(db, "INSERT INTO serving (id, trial, position, assessor, pair, document) VALUES (?, ?, ?, ?, ?, ?)", serving.id,
        after.id(), i, serving.assessor, serving.pair, document(serving));
  }
}

void put_cup(Connection& db, IdOf<Serving> serving, Side side, const CupMarks& old_cup, const CupMarks& cup) {
  const std::string where = codec::word_of(side);
  for (const auto& [field, mark] : cup.marks) {
    const auto old_mark = old_cup.marks.find(field);
    if (old_mark != old_cup.marks.end() && old_mark->second == mark) continue;
    run(db,
        "INSERT INTO mark (serving, side, field, value) VALUES (?, ?, ?, ?) "
        "ON CONFLICT DO UPDATE SET value = excluded.value",
        serving, where, field, document(mark));
  }
  for (const auto& [field, mark] : old_cup.marks)
    if (!cup.marks.contains(field))
      run(db, "DELETE FROM mark WHERE serving = ? AND side = ? AND field = ?", serving, where, field);
  if (cup.words == old_cup.words) return;
  run(db, "DELETE FROM word WHERE serving = ? AND side = ?", serving, where);
  for (std::size_t i = 0; i < cup.words.size(); ++i)
    run(db, "INSERT INTO word (serving, side, position, word, strength) VALUES (?, ?, ?, ?, ?)", serving, where, i,
        cup.words[i].word, cup.words[i].strength);
}

void put_directs(Connection& db, const Sheet& old_sheet, const Sheet& sheet) {
  for (const auto& [attribute, answer] : sheet.directs) {
    const auto old_answer = old_sheet.directs.find(attribute);
    if (old_answer != old_sheet.directs.end() && old_answer->second == answer) continue;
    run(db,
        "INSERT INTO direct (serving, attribute, answer) VALUES (?, ?, ?) "
        "ON CONFLICT DO UPDATE SET answer = excluded.answer",
        sheet.serving, attribute, codec::word_of(answer));
  }
  for (const auto& [attribute, answer] : old_sheet.directs)
    if (!sheet.directs.contains(attribute))
      run(db, "DELETE FROM direct WHERE serving = ? AND attribute = ?", sheet.serving, attribute);
}

/// The second entry of a paper sheet: `part` is the cup's side, or "answer" for the comparing sip.
void put_second(Connection& db, const Sheet& old_sheet, const Sheet& sheet) {
  if (old_sheet.second == sheet.second) return;
  const auto part = [&](const std::string& name, const auto& old_entries, const auto& entries, auto value_of) {
    for (const auto& [field, entry] : entries) {
      const auto old_entry = old_entries.find(field);
      if (old_entry != old_entries.end() && old_entry->second == entry) continue;
      run(db,
          "INSERT INTO second_reading (serving, part, field, value) VALUES (?, ?, ?, ?) "
          "ON CONFLICT DO UPDATE SET value = excluded.value",
          sheet.serving, name, field, value_of(entry));
    }
    for (const auto& [field, entry] : old_entries)
      if (!entries.contains(field))
        run(db, "DELETE FROM second_reading WHERE serving = ? AND part = ? AND field = ?", sheet.serving, name, field);
  };
  const auto mark_document = [](const Mark& mark) { return document(mark); };
  for (const Side side : {Side::left, Side::right})
    part(codec::word_of(side), old_sheet.second.cup(side), sheet.second.cup(side), mark_document);
  part("answer", old_sheet.second.directs, sheet.second.directs, [](Direct answer) { return codec::word_of(answer); });
}

std::optional<std::string> side_word(const std::optional<Side>& side) {
  if (!side) return std::nullopt;
  return codec::word_of(*side);
}

void put_sheet(Connection& db, IdOf<Trial> trial, const Sheet* old_sheet, const Sheet& sheet) {
  if (old_sheet != nullptr && old_sheet->locked) {
    if (sheet.guess != old_sheet->guess)
      run(db, "UPDATE sheet SET guess = ? WHERE serving = ?", document_or_null(sheet.guess), sheet.serving);
    return;
  }
  static const Sheet nothing;
  const Sheet& old_one = old_sheet == nullptr ? nothing : *old_sheet;
  const auto head = [](const Sheet& s) {
    return std::tuple(s.started, s.entered_by, s.sipped_first, s.note, s.left.fault, s.left.fault_note, s.right.fault,
                      s.right.fault_note);
  };
  if (old_sheet == nullptr || head(old_one) != head(sheet))
    run(db,
        "INSERT INTO sheet (serving, trial, started, entered_by, sipped_first, note, left_fault, left_fault_note, "
        "right_fault, right_fault_note) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO UPDATE SET "
        "started = excluded.started, entered_by = excluded.entered_by, sipped_first = excluded.sipped_first, "
        "note = excluded.note, left_fault = excluded.left_fault, left_fault_note = excluded.left_fault_note, "
        "right_fault = excluded.right_fault, right_fault_note = excluded.right_fault_note",
        sheet.serving, trial, sheet.started, codec::word_of(sheet.entered_by), side_word(sheet.sipped_first),
        sheet.note, sheet.left.fault, sheet.left.fault_note, sheet.right.fault, sheet.right.fault_note);
  put_cup(db, sheet.serving, Side::left, old_one.left, sheet.left);
  put_cup(db, sheet.serving, Side::right, old_one.right, sheet.right);
  put_directs(db, old_one, sheet);
  put_second(db, old_one, sheet);
  if (sheet.locked)
    run(db, "UPDATE sheet SET locked = ?, digest = ?, guess = ? WHERE serving = ?", *sheet.locked, sheet.digest.hex(),
        document_or_null(sheet.guess), sheet.serving);
}

void put_sheets(Connection& db, const Trial* before, const Trial& after) {
  for (const auto& [serving, sheet] : after.sheets) {
    const Sheet* old_sheet = nullptr;
    if (before != nullptr)
      if (const auto found = before->sheets.find(serving); found != before->sheets.end())
        old_sheet = found->second.get();
    if (old_sheet != sheet.get()) put_sheet(db, after.id(), old_sheet, *sheet);
  }
  if (before != nullptr)
    for (const auto& [serving, sheet] : before->sheets)
      if (!after.sheets.contains(serving))  // the undo of starting it
        for (const char* sql : {"DELETE FROM mark WHERE serving = ?", "DELETE FROM direct WHERE serving = ?",
                                "DELETE FROM word WHERE serving = ?", "DELETE FROM second_reading WHERE serving = ?",
                                "DELETE FROM sheet WHERE serving = ?"})
          run(db, sql, serving);
}

void put_stamps(Connection& db, const Brew* old_brew, const Brew& brew) {
  for (std::size_t i = 0; i < brew.stamps.size(); ++i) {
    Stamp stamp = brew.stamps[i];
    const bool is_new = old_brew == nullptr || i >= old_brew->stamps.size();
    const auto undone = std::exchange(stamp.undone, std::nullopt);
    if (is_new) run(db, "INSERT INTO stamp (brew, position, document) VALUES (?, ?, ?)", brew.id, i, document(stamp));
    if (undone && (is_new || !old_brew->stamps[i].undone))
      run(db, "UPDATE stamp SET undone = ?, undone_boot_ms = ? WHERE brew = ? AND position = ?", *undone,
          undone->boot_ms, brew.id, i);
  }
}

/// Readings and infusions have lists of their own; the brew's document leaves stamps and readings out.
void put_brew(Connection& db, IdOf<Trial> trial, const Brew* old_brew, const Brew& brew) {
  const auto facts = [](Brew b) {
    b.stamps.clear();
    b.readings.clear();
    return b;
  };
  if (old_brew == nullptr || facts(*old_brew) != facts(brew))
    run(db,
        "INSERT INTO brew (id, trial, document) VALUES (?, ?, ?) ON CONFLICT DO UPDATE SET document = "
        "excluded.document",
        brew.id, trial, document(facts(brew)));
  put_stamps(db, old_brew, brew);
  static const std::vector<Reading> none;
  const auto& old_readings = old_brew == nullptr ? none : old_brew->readings;
  const auto same = same_start(old_readings, brew.readings);
  if (same < old_readings.size()) run(db, "DELETE FROM reading WHERE brew = ? AND position >= ?", brew.id, same);
  for (std::size_t i = same; i < brew.readings.size(); ++i)
    run(db, "INSERT INTO reading (brew, position, document) VALUES (?, ?, ?)", brew.id, i, document(brew.readings[i]));
}

void put_brews(Connection& db, const Trial* before, const Trial& after) {
  for (const auto& [id, brew] : after.brews) {
    const Brew* old_brew = nullptr;
    if (before != nullptr)
      if (const auto found = before->brews.find(id); found != before->brews.end()) old_brew = found->second.get();
    if (old_brew != brew.get()) put_brew(db, after.id(), old_brew, *brew);
  }
  for (const auto& [pair, served] : after.served) {
    if (before != nullptr)
      if (const auto found = before->served.find(pair); found != before->served.end() && found->second == served)
        continue;
    run(db,
        "INSERT INTO served (trial, pair, document) VALUES (?, ?, ?) ON CONFLICT DO UPDATE SET document = "
        "excluded.document",
        after.id(), pair, document(served));
  }
  if (before != nullptr)
    for (const auto& [pair, served] : before->served)
      if (!after.served.contains(pair)) run(db, "DELETE FROM served WHERE trial = ? AND pair = ?", after.id(), pair);
  if (before == nullptr ? !after.weighed.empty() : before->weighed != after.weighed) {
    run(db, "DELETE FROM weighed WHERE trial = ?", after.id());
    for (std::size_t i = 0; i < after.weighed.size(); ++i)
      run(db, "INSERT INTO weighed (trial, lot, position) VALUES (?, ?, ?)", after.id(), after.weighed[i], i);
  }
}

void put_days(Connection& db, const Trial* before, const Trial& after) {
  if (before == nullptr ? after.days.empty() : before->days == after.days) return;
  run(db, "DELETE FROM day_state WHERE trial = ?", after.id());
  for (std::size_t i = 0; i < after.days.size(); ++i)
    run(db, "INSERT INTO day_state (trial, assessor, sitting, position, document) VALUES (?, ?, ?, ?, ?)", after.id(),
        after.days[i].assessor, after.days[i].sitting, i, document(after.days[i]));
}

void put_openings(Connection& db, const Trial* before, const Trial& after) {
  for (std::size_t i = 0; i < after.openings.size(); ++i) {
    const KeyOpening& opening = after.openings[i];
    const bool is_new = before == nullptr || i >= before->openings.size();
    if (is_new)
      run(db, "INSERT INTO key_opening (trial, position, preparer, opened) VALUES (?, ?, ?, ?)", after.id(), i,
          opening.preparer, opening.opened);
    if (opening.closed && (is_new || !before->openings[i].closed))
      run(db, "UPDATE key_opening SET closed = ? WHERE trial = ? AND position = ?", *opening.closed, after.id(), i);
  }
}

template <class T>
void put_added(Connection& db, const char* sql, IdOf<Trial> trial, std::size_t from, const std::vector<T>& list) {
  for (std::size_t i = from; i < list.size(); ++i) run(db, sql, trial, i, document(list[i]));
}

void put_happenings(Connection& db, const Trial* before, const Trial& after) {
  for (std::size_t i = before == nullptr ? 0 : before->voids.size(); i < after.voids.size(); ++i)
    run(db, "INSERT INTO void (trial, position, pair, document) VALUES (?, ?, ?, ?)", after.id(), i,
        after.voids[i].pair, document(after.voids[i]));
  put_added(db, "INSERT INTO exclusion (trial, position, document) VALUES (?, ?, ?)", after.id(),
            before == nullptr ? 0 : before->exclusions.size(), after.exclusions);
  put_added(db, "INSERT INTO amendment (trial, position, document) VALUES (?, ?, ?)", after.id(),
            before == nullptr ? 0 : before->amendments.size(), after.amendments);
  if (after.unmasked && (before == nullptr || !before->unmasked))
    run(db, "INSERT INTO unmask (trial, unmasked, document) VALUES (?, ?, ?)", after.id(), after.unmasked->at,
        document(*after.unmasked));
  if (after.rule && (before == nullptr || before->rule != after.rule))
    run(db,
        "INSERT INTO house_rule (trial, document) VALUES (?, ?) ON CONFLICT DO UPDATE SET document = excluded.document",
        after.id(), document(*after.rule));
}

}  // namespace

void persist(Connection& db, const Trial* before, const Trial& after, const std::optional<std::string>& import_digest) {
  put_draft(db, before, after, import_digest);
  put_seal(db, before, after);
  put_brews(db, before, after);
  put_openings(db, before, after);
  put_days(db, before, after);
  put_sheets(db, before, after);
  put_happenings(db, before, after);
}

void persist(Connection& db, const Lot& lot) {
  run(db,
      "INSERT INTO lot (id, position, code, name, type, document) "
      "VALUES (?, (SELECT coalesce(max(position), 0) + 1 FROM lot), ?, ?, ?, ?) ON CONFLICT (id) DO UPDATE SET "
      "code = excluded.code, name = excluded.name, type = excluded.type, document = excluded.document",
      lot.id, lot.code, lot.name, codec::word_of(lot.type), document(lot));
}

void persist(Connection& db, const Water& water) {
  run(db,
      "INSERT INTO water (id, position, name, document) "
      "VALUES (?, (SELECT coalesce(max(position), 0) + 1 FROM water), ?, ?) ON CONFLICT (id) DO UPDATE SET "
      "name = excluded.name, document = excluded.document",
      water.id, water.name, document(water));
}

void persist(Connection& db, const Vessel& vessel) {
  run(db,
      "INSERT INTO vessel (id, position, name, document) "
      "VALUES (?, (SELECT coalesce(max(position), 0) + 1 FROM vessel), ?, ?) ON CONFLICT (id) DO UPDATE SET "
      "name = excluded.name, document = excluded.document",
      vessel.id, vessel.name, document(vessel));
}

void persist(Connection& db, const Assessor& assessor) {
  run(db,
      "INSERT INTO assessor (id, position, alias, document) "
      "VALUES (?, (SELECT coalesce(max(position), 0) + 1 FROM assessor), ?, ?) ON CONFLICT (id) DO UPDATE SET "
      "alias = excluded.alias, document = excluded.document",
      assessor.id, assessor.alias, document(assessor));
}

void persist(Connection& db, const Attribute& attribute) {
  run(db,
      "INSERT INTO attribute (id, position, document) "
      "VALUES (?, (SELECT coalesce(max(position), 0) + 1 FROM attribute), ?) ON CONFLICT (id) DO UPDATE SET "
      "document = excluded.document",
      attribute.id, document(attribute));
}

}  // namespace likeleaf::store
