#include "core/store/load.h"

#include <algorithm>
#include <stdexcept>

#include "core/codec/value_text.h"
#include "core/store/sql.h"

namespace likeleaf::store {

namespace {

[[noreturn]] void bad_row(const std::string& what, const std::string& value) {
  throw BadRow{{ErrorKind::damaged, what, value.substr(0, 60), {}, {}}};
}

template <class T>
T taken(Result<T> got, const std::string& what) {
  if (!got) throw BadRow{{ErrorKind::damaged, what, got.error().value, got.error().allowed, got.error().where}};
  return std::move(*got);
}

template <class T>
T read_document(const std::string& text, const char* what) {
  return taken(codec::read<T>(text), what);
}

template <class E>
E read_word(const std::string& word, const char* what) {
  return taken(codec::read_word<E>(word), what);
}

template <class Record>
IdOf<Record> read_id_text(const std::string& text, const char* what) {
  const auto id = IdOf<Record>::parse(text);
  if (!id) bad_row(what, text);
  return *id;
}

Moment read_time(const std::string& text, const char* what) {
  const auto moment = parse_iso(text);
  if (!moment) bad_row(what, text);
  return *moment;
}

template <class T>
std::vector<T> read_list_of(Db& db, const char* sql, IdOf<Trial> trial, const char* what) {
  std::vector<T> list;
  auto rows = bound(db, sql, trial);
  while (rows.executeStep()) list.push_back(read_document<T>(text_at(rows, 0), what));
  return list;
}

void load_draft(Db& db, Trial& trial, IdOf<Trial> id) {
  auto row = bound(db, "SELECT draft, created, number FROM trial WHERE id = ?", id);
  if (!row.executeStep()) throw BadRow{{ErrorKind::not_found, "trial", id.text(), {}, {}}};
  trial.draft = read_document<Plan>(text_at(row, 0), "plan");
  trial.draft.id = id;
  trial.draft.number = row.getColumn(2).getInt();
  trial.created = read_time(text_at(row, 1), "created");
}

void load_seal(Db& db, Trial& trial, IdOf<Trial> id) {
  if (const auto text = text_of(db, "SELECT document FROM seal WHERE trial = ?", id))
    trial.sealed = std::make_shared<const SealedPlan>(read_document<SealedPlan>(*text, "sealed plan"));
  if (const auto text = text_of(db, "SELECT document FROM trial_key WHERE trial = ?", id))
    trial.key = std::make_shared<const Key>(read_document<Key>(*text, "key"));
  trial.servings =
      read_list_of<BlindServing>(db, "SELECT document FROM serving WHERE trial = ? ORDER BY position", id, "serving");
}

std::shared_ptr<Sheet> read_sheet_row(SQLite::Statement& row) {
  auto sheet = std::make_shared<Sheet>();
  sheet->serving = read_id_text<Serving>(text_at(row, 0), "serving");
  if (const auto text = text_or_null(row, 1)) sheet->started = read_time(*text, "started");
  sheet->entered_by = read_word<EnteredBy>(text_at(row, 2), "entered by");
  if (const auto word = text_or_null(row, 3)) sheet->sipped_first = read_word<Side>(*word, "sipped first");
  sheet->note = text_at(row, 4);
  sheet->left.fault = row.getColumn(5).getInt() != 0;
  sheet->left.fault_note = text_at(row, 6);
  sheet->right.fault = row.getColumn(7).getInt() != 0;
  sheet->right.fault_note = text_at(row, 8);
  if (const auto text = text_or_null(row, 9)) sheet->locked = read_time(*text, "locked");
  if (const auto text = text_or_null(row, 10)) {
    const auto digest = Digest::parse(*text);
    if (!digest) bad_row("sheet's digest", *text);
    sheet->digest = *digest;
  }
  if (const auto text = text_or_null(row, 11)) sheet->guess = read_document<Guess>(*text, "guess");
  return sheet;
}

using OpenSheets = std::map<IdOf<Serving>, std::shared_ptr<Sheet>>;

Sheet& sheet_of(OpenSheets& sheets, SQLite::Statement& row) {
  const auto found = sheets.find(read_id_text<Serving>(text_at(row, 0), "serving"));
  if (found == sheets.end()) bad_row("sheet", text_at(row, 0));
  return *found->second;
}

void load_second_readings(Db& db, OpenSheets& sheets, IdOf<Trial> id) {
  auto rows = bound(db,
                    "SELECT r.serving, r.part, r.field, r.value FROM sheet s JOIN second_reading r USING (serving) "
                    "WHERE s.trial = ?",
                    id);
  while (rows.executeStep()) {
    SecondReading& second = sheet_of(sheets, rows).second;
    const std::string part = text_at(rows, 1), value = text_at(rows, 3);
    if (part == "answer")
      second.directs.emplace(text_at(rows, 2), read_word<Direct>(value, "second entry"));
    else
      second.cup(read_word<Side>(part, "side")).emplace(text_at(rows, 2), read_document<Mark>(value, "second entry"));
  }
}

void load_sheets(Db& db, Trial& trial, IdOf<Trial> id) {
  OpenSheets sheets;
  auto rows =
      bound(db,
            "SELECT serving, started, entered_by, sipped_first, note, left_fault, left_fault_note, right_fault, "
            "right_fault_note, locked, digest, guess FROM sheet WHERE trial = ?",
            id);
  while (rows.executeStep()) {
    auto sheet = read_sheet_row(rows);
    sheets.emplace(sheet->serving, std::move(sheet));
  }
  auto marks = bound(
      db, "SELECT m.serving, m.side, m.field, m.value FROM sheet s JOIN mark m USING (serving) WHERE s.trial = ?", id);
  while (marks.executeStep())
    sheet_of(sheets, marks)
        .cup(read_word<Side>(text_at(marks, 1), "side"))
        .marks.emplace(text_at(marks, 2), read_document<Mark>(text_at(marks, 3), "mark"));
  auto directs = bound(
      db, "SELECT d.serving, d.attribute, d.answer FROM sheet s JOIN direct d USING (serving) WHERE s.trial = ?", id);
  while (directs.executeStep())
    sheet_of(sheets, directs).directs.emplace(text_at(directs, 1), read_word<Direct>(text_at(directs, 2), "answer"));
  auto words = bound(db,
                     "SELECT w.serving, w.side, w.word, w.strength FROM sheet s JOIN word w USING (serving) "
                     "WHERE s.trial = ? ORDER BY w.serving, w.side, w.position",
                     id);
  while (words.executeStep()) {
    WordMark word{text_at(words, 2), {}};
    if (!words.getColumn(3).isNull()) word.strength = words.getColumn(3).getInt();
    sheet_of(sheets, words).cup(read_word<Side>(text_at(words, 1), "side")).words.push_back(std::move(word));
  }
  load_second_readings(db, sheets, id);
  for (auto& [serving, sheet] : sheets) trial.sheets.emplace(serving, std::move(sheet));
}

void load_brews(Db& db, Trial& trial, IdOf<Trial> id) {
  std::map<IdOf<Brew>, std::shared_ptr<Brew>> brews;
  auto rows = bound(db, "SELECT document FROM brew WHERE trial = ?", id);
  while (rows.executeStep()) {
    auto brew = std::make_shared<Brew>(read_document<Brew>(text_at(rows, 0), "brew"));
    brews.emplace(brew->id, std::move(brew));
  }
  auto stamps = bound(db,
                      "SELECT s.brew, s.document, s.undone, s.undone_boot_ms FROM brew b JOIN stamp s ON s.brew = b.id "
                      "WHERE b.trial = ? ORDER BY s.brew, s.position",
                      id);
  while (stamps.executeStep()) {
    Stamp stamp = read_document<Stamp>(text_at(stamps, 1), "stamp");
    if (const auto undone = text_or_null(stamps, 2)) {
      stamp.undone = read_time(*undone, "undone");
      stamp.undone->boot_ms = stamps.getColumn(3).getInt64();
    }
    brews.at(read_id_text<Brew>(text_at(stamps, 0), "brew"))->stamps.push_back(stamp);
  }
  auto readings = bound(db,
                        "SELECT r.brew, r.document FROM brew b JOIN reading r ON r.brew = b.id WHERE b.trial = ? "
                        "ORDER BY r.brew, r.position",
                        id);
  while (readings.executeStep())
    brews.at(read_id_text<Brew>(text_at(readings, 0), "brew"))
        ->readings.push_back(read_document<Reading>(text_at(readings, 1), "reading"));
  for (auto& [brew_id, brew] : brews) trial.brews.emplace(brew_id, std::move(brew));
}

void load_table_side(Db& db, Trial& trial, IdOf<Trial> id) {
  for (auto& served : read_list_of<ServedPair>(db, "SELECT document FROM served WHERE trial = ?", id, "served pair"))
    trial.served.emplace(served.pair, served);
  auto weighed = bound(db, "SELECT lot FROM weighed WHERE trial = ? ORDER BY position", id);
  while (weighed.executeStep()) trial.weighed.push_back(read_id_text<Lot>(text_at(weighed, 0), "weighed lot"));
  trial.days = read_list_of<DayState>(db, "SELECT document FROM day_state WHERE trial = ? ORDER BY position", id,
                                      "state of the day");
  auto openings = bound(db, "SELECT preparer, opened, closed FROM key_opening WHERE trial = ? ORDER BY position", id);
  while (openings.executeStep()) {
    KeyOpening opening;
    opening.preparer = read_id_text<Assessor>(text_at(openings, 0), "preparer");
    opening.opened = read_time(text_at(openings, 1), "opened");
    if (const auto closed = text_or_null(openings, 2)) opening.closed = read_time(*closed, "closed");
    trial.openings.push_back(opening);
  }
}

void load_happenings(Db& db, Trial& trial, IdOf<Trial> id) {
  trial.voids = read_list_of<Void>(db, "SELECT document FROM void WHERE trial = ? ORDER BY position", id, "void");
  trial.exclusions =
      read_list_of<Exclusion>(db, "SELECT document FROM exclusion WHERE trial = ? ORDER BY position", id, "exclusion");
  trial.amendments =
      read_list_of<Amendment>(db, "SELECT document FROM amendment WHERE trial = ? ORDER BY position", id, "amendment");
  if (const auto text = text_of(db, "SELECT document FROM unmask WHERE trial = ?", id))
    trial.unmasked = read_document<UnmaskRecord>(*text, "unmask");
  if (const auto text = text_of(db, "SELECT document FROM house_rule WHERE trial = ?", id))
    trial.rule = read_document<AdoptedRule>(*text, "rule");
}

template <class Work>
auto guarded(Db& db, Work work) -> Result<decltype(work())> {
  try {
    return work();
  } catch (const SQLite::Exception& problem) {
    return tl::unexpected<Error>(error_of(problem, &db, {}));
  } catch (BadRow& bad) {
    return tl::unexpected<Error>(std::move(bad.error));
  } catch (const std::out_of_range&) {
    return fail(ErrorKind::damaged, Field::book, "a row without its owner");
  }
}

template <class T>
std::vector<T> load_register(Db& db, const char* sql, const char* what) {
  std::vector<T> list;
  auto rows = bound(db, sql);
  while (rows.executeStep()) list.push_back(read_document<T>(text_at(rows, 0), what));
  return list;
}

Stage stage_of(bool sealed, bool unmasked, int locked, int sheets) {
  if (unmasked) return Stage::unmasked;
  if (!sealed) return Stage::plan;
  return sheets > 0 && locked == sheets ? Stage::all_locked : Stage::brew_and_taste;
}

LedgerRow read_ledger_row(SQLite::Statement& row) {
  LedgerRow out;
  out.id = read_id_text<Trial>(text_at(row, 0), "trial");
  out.number = row.getColumn(1).getInt();
  out.question = text_at(row, 2);
  out.lever = read_document<Lever>(text_at(row, 3), "lever");
  out.created = read_time(text_at(row, 4), "created");
  if (const auto sealed = text_or_null(row, 5)) out.sealed = read_time(*sealed, "sealed");
  out.paper_import = row.getColumn(6).getInt() != 0;
  if (const auto unmasked = text_or_null(row, 7)) out.unmasked = read_time(*unmasked, "unmasked");
  out.adopted = row.getColumn(8).getInt() != 0;
  out.sheets = row.getColumn(9).getInt();
  out.sheets_locked = row.getColumn(10).getInt();
  out.stage = stage_of(out.sealed.has_value(), out.unmasked.has_value(), out.sheets_locked, out.sheets);
  return out;
}

/// Rows by the id of their trial. One query for the book, since a query a trial would be prepared a thousand times.
using RowsById = std::map<std::string, LedgerRow*, std::less<>>;

void add_lots(Db& db, const RowsById& rows_by_id) {
  auto lots = bound(
      db, "SELECT t.trial, l.code, l.type FROM trial_lot t JOIN lot l ON l.id = t.lot ORDER BY t.trial, t.position");
  while (lots.executeStep()) {
    const auto found = rows_by_id.find(text_at(lots, 0));
    if (found == rows_by_id.end()) continue;
    LedgerRow& row = *found->second;
    row.lots.push_back(text_at(lots, 1));
    const auto type = read_word<LeafType>(text_at(lots, 2), "leaf type");
    if (std::ranges::find(row.leaf_types, type) == row.leaf_types.end()) row.leaf_types.push_back(type);
  }
}

void add_assessors(Db& db, const RowsById& rows_by_id) {
  auto people = bound(db,
                      "SELECT t.trial, a.alias FROM trial_assessor t JOIN assessor a ON a.id = t.assessor "
                      "ORDER BY t.trial, t.position");
  while (people.executeStep())
    if (const auto found = rows_by_id.find(text_at(people, 0)); found != rows_by_id.end())
      found->second->assessors.push_back(text_at(people, 1));
}

}  // namespace

Result<Trial> load_trial(SQLite::Database& db, IdOf<Trial> id) {
  return guarded(db, [&] {
    // One snapshot of the book: the writer may commit between two of these queries.
    SQLite::Transaction snapshot(db);
    Trial trial;
    load_draft(db, trial, id);
    load_seal(db, trial, id);
    load_sheets(db, trial, id);
    load_brews(db, trial, id);
    load_table_side(db, trial, id);
    load_happenings(db, trial, id);
    return trial;
  });
}

Result<Registers> load_registers(SQLite::Database& db) {
  return guarded(db, [&] {
    Registers registers;
    registers.lots = load_register<Lot>(db, "SELECT document FROM lot ORDER BY position", "lot");
    registers.waters = load_register<Water>(db, "SELECT document FROM water ORDER BY position", "water");
    registers.vessels = load_register<Vessel>(db, "SELECT document FROM vessel ORDER BY position", "vessel");
    registers.assessors = load_register<Assessor>(db, "SELECT document FROM assessor ORDER BY position", "assessor");
    return registers;
  });
}

Result<std::vector<Attribute>> load_attributes(SQLite::Database& db) {
  return guarded(db, [&] {
    return load_register<Attribute>(db, "SELECT document FROM attribute ORDER BY position", "attribute");
  });
}

Result<std::vector<LedgerRow>> load_ledger(SQLite::Database& db) {
  return guarded(db, [&] {
    SQLite::Transaction snapshot(db);
    std::vector<LedgerRow> list;
    // Sheets are counted only where the counts are shown: of an unmasked trial all are locked. The live servings are no
    // common table: SQLite would make one of all servings of the book first.
    auto rows = bound(
        db,
        "SELECT t.id, t.number, t.question, json_extract(t.draft, '$.lever'), t.created, s.sealed, s.paper_import, "
        "u.unmasked, h.trial IS NOT NULL AND coalesce(json_extract(h.document, '$.left'), 0) = 0, "
        "CASE WHEN u.trial IS NULL THEN (SELECT count(*) FROM serving WHERE serving.trial = t.id "
        "AND serving.pair NOT IN (SELECT pair FROM void WHERE void.trial = t.id)) ELSE 0 END, "
        "CASE WHEN u.trial IS NULL THEN (SELECT count(*) FROM serving JOIN sheet ON sheet.serving = serving.id "
        "WHERE serving.trial = t.id AND sheet.locked IS NOT NULL "
        "AND serving.pair NOT IN (SELECT pair FROM void WHERE void.trial = t.id)) ELSE 0 END "
        "FROM trial t LEFT JOIN seal s ON s.trial = t.id LEFT JOIN unmask u ON u.trial = t.id "
        "LEFT JOIN house_rule h ON h.trial = t.id ORDER BY t.position DESC");
    while (rows.executeStep()) list.push_back(read_ledger_row(rows));
    RowsById rows_by_id;
    for (auto& row : list) rows_by_id.emplace(row.id.text(), &row);
    add_lots(db, rows_by_id);
    add_assessors(db, rows_by_id);
    return list;
  });
}

Result<std::vector<TrialName>> load_names(SQLite::Database& db) {
  return guarded(db, [&] {
    std::vector<TrialName> list;
    auto rows = bound(db, "SELECT id, number, question FROM trial ORDER BY position DESC");
    while (rows.executeStep())
      list.push_back({read_id_text<Trial>(text_at(rows, 0), "trial"), rows.getColumn(1).getInt(), text_at(rows, 2)});
    return list;
  });
}

std::optional<NumbersAround> numbers_around(SQLite::Database& db, int number) {
  const auto lowest = whole_of(db, "SELECT min(number) FROM trial");
  const auto highest = whole_of(db, "SELECT max(number) FROM trial");
  if (!lowest || !highest) return std::nullopt;
  const auto one = [](std::optional<std::int64_t> found) {
    return found ? std::optional(static_cast<int>(*found)) : std::nullopt;
  };
  return NumbersAround{static_cast<int>(*lowest), static_cast<int>(*highest),
                       one(whole_of(db, "SELECT max(number) FROM trial WHERE number < ?", number)),
                       one(whole_of(db, "SELECT min(number) FROM trial WHERE number > ?", number))};
}

std::optional<IdOf<Trial>> trial_of_number(SQLite::Database& db, int number) {
  const auto text = text_of(db, "SELECT id FROM trial WHERE number = ?", number);
  if (!text) return std::nullopt;
  return IdOf<Trial>::parse(*text);
}

int next_number(SQLite::Database& db) {
  return static_cast<int>(whole_of(db, "SELECT coalesce(max(number), 0) + 1 FROM trial").value_or(1));
}

bool has_trial(SQLite::Database& db, IdOf<Trial> id) {
  return whole_of(db, "SELECT 1 FROM trial WHERE id = ?", id).has_value();
}

std::optional<std::string> import_digest(SQLite::Database& db, IdOf<Trial> id) {
  return text_of(db, "SELECT import_digest FROM trial WHERE id = ?", id);
}

std::vector<IdOf<Trial>> all_trials(SQLite::Database& db) {
  std::vector<IdOf<Trial>> ids;
  auto rows = bound(db, "SELECT id FROM trial ORDER BY position");
  while (rows.executeStep())
    if (const auto id = IdOf<Trial>::parse(text_at(rows, 0))) ids.push_back(*id);
  return ids;
}

}  // namespace likeleaf::store
