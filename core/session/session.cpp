// Opening, registers and import; commands and undo are in bench.cpp.
#include "core/session/session.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/base/line_text.h"
#include "core/base/number_text.h"
#include "core/codec/builtin.h"
#include "core/codec/trial_document.h"
#include "core/session/inner.h"
#include "core/store/load.h"
#include "core/store/rows.h"

namespace likeleaf {

Session::Session() = default;

Session::~Session() {
  if (!inner_) return;
  inner_->desk.reset();
  inner_->writer.reset();
}

Result<std::unique_ptr<Session>> Session::create(const std::filesystem::path& book, const Services& services,
                                                 const store::Seams& seams) {
  return Inner::start(services, store::Book::create(book, services.clock.now(), services.entropy, seams));
}

Result<std::unique_ptr<Session>> Session::open(const std::filesystem::path& book, OpenWay way, const Services& services,
                                               const store::Seams& seams) {
  const auto store_way = way == OpenWay::write ? store::Book::Way::write : store::Book::Way::read_only;
  return Inner::start(services, store::Book::open(book, store_way, services.clock.now(), seams));
}

Result<std::unique_ptr<Session>> Session::Inner::start(const Services& services,
                                                       Result<std::unique_ptr<store::Book>> book) {
  if (!book) return tl::unexpected<Error>(book.error());
  std::unique_ptr<Session> session(new Session);
  session->inner_ = std::make_unique<Inner>(services, std::move(*book));
  Inner& inner = *session->inner_;
  if (auto loaded = inner.load(); !loaded) {
    Error error = loaded.error();
    error.where = inner.book->path().string();
    return tl::unexpected<Error>(std::move(error));
  }
  if (inner.book->read_only()) return session;
  const auto announce = [&dispatcher = services.dispatcher, &clock = services.clock,
                         hearers = std::weak_ptr(inner.listeners)](const store::Writer::Report& report) {
    dispatcher.post([hearers, report, &clock] {
      const auto there = hearers.lock();
      if (!there) return;
      const Kept kept{report.up_to, clock.now(), report.not_kept};
      // A listener may end its own subscription while it hears.
      for (const auto& [id, hear] : std::map(there->kept)) hear(kept);
    });
  };
  inner.writer = std::make_unique<store::Writer>(*inner.book, announce);
  return session;
}

Result<void> Session::Inner::load() {
  auto loaded = store::load_registers(book->reading());
  if (!loaded) return tl::unexpected<Error>(loaded.error());
  registers = std::move(*loaded);
  attributes = builtin_attributes();
  auto own = store::load_attributes(book->reading());
  if (!own) return tl::unexpected<Error>(own.error());
  for (const auto& attribute : *own) {
    // Of a built-in one the house keeps its own word only; a later Likeleaf may say the rest better.
    const auto built_in = std::ranges::find(attributes, attribute.id, &Attribute::id);
    if (built_in == attributes.end())
      attributes.push_back(attribute);
    else
      built_in->house_word = attribute.house_word;
  }
  return {};
}

Result<void> Session::Inner::may_write() const {
  if (writer) return {};
  return fail(ErrorKind::read_only, Field::book, {}, {}, book->path().string());
}

Result<void> Session::Inner::settled() const {
  if (!writer) return {};
  return writer->flush();
}

void Session::Inner::tell(const Notice& notice) const {
  for (const auto& [id, hear] : std::map(listeners->change)) hear(notice);
}

Result<Ticket> Session::Inner::keep(store::Writer::Job job) {
  return writer->add(std::move(job));
}

const std::filesystem::path& Session::path() const {
  return inner_->book->path();
}
bool Session::read_only() const {
  return inner_->book->read_only();
}
const std::vector<OpeningNote>& Session::opening_notes() const {
  return inner_->book->notes();
}
const Registers& Session::registers() const {
  return inner_->registers;
}
const std::vector<Attribute>& Session::attributes() const {
  return inner_->attributes;
}

std::vector<store::LedgerRow> Session::ledger() const {
  // What cannot be written now is not in the list yet; the list itself is still good.
  [[maybe_unused]] const auto settled = inner_->settled();
  auto rows = store::load_ledger(inner_->book->reading());
  return rows ? std::move(*rows) : std::vector<store::LedgerRow>{};
}

std::vector<store::TrialName> Session::names() const {
  [[maybe_unused]] const auto settled = inner_->settled();
  auto names = store::load_names(inner_->book->reading());
  return names ? std::move(*names) : std::vector<store::TrialName>{};
}

Ticket Session::last_ticket() const {
  return inner_->writer ? inner_->writer->last_ticket() : 0;
}

namespace {

template <class Record>
void put_into(std::vector<Record>& records, const Record& record) {
  const auto found = std::ranges::find(records, record.id, &Record::id);
  if (found == records.end())
    records.push_back(record);
  else
    *found = record;
}

Result<void> check_line(const std::string& text, std::size_t most, const char* field) {
  const auto line = parse_line(text, most, field);
  if (!line) return tl::unexpected<Error>(line.error());
  if (*line != text) return fail(ErrorKind::bad_value, field, shown_value(text), "one line");
  return {};
}

/// Text that is read beside others on labels and screens has to fit there; notes may be longer.
template <class Record>
Result<void> check_texts(const Record& record,
                         std::initializer_list<std::pair<const char*, std::string Record::*>> all) {
  for (const auto& [field, member] : all)
    if (auto good = check_line(record.*member, sentence_length, field); !good) return good;
  if (const auto notes = parse_lines(record.notes, paragraph_length, "notes"); !notes)
    return tl::unexpected<Error>(notes.error());
  return {};
}

/// The name by which people know a record has to be there and, for lots and assessors, be the only one.
template <class Record>
Result<void> check_name(const std::vector<Record>& records, const Record& record, std::string Record::*name,
                        const char* field, bool unique) {
  if (record.id.empty()) return fail(ErrorKind::missing, field, record.*name, "an id");
  if ((record.*name).empty()) return fail(ErrorKind::missing, field, {}, "a name");
  if (auto good = check_line(record.*name, name_length, field); !good) return good;
  if (!unique) return {};
  for (const auto& other : records)
    if (other.id != record.id && other.*name == record.*name)
      return fail(ErrorKind::duplicate, field, record.*name, "one that is not taken");
  return {};
}

}  // namespace

namespace {

Result<void> check_attribute_texts(const Attribute& attribute) {
  if (attribute.name.empty()) return fail(ErrorKind::missing, "attribute", {}, "a name");
  if (auto good = check_line(attribute.name, name_length, "attribute"); !good) return good;
  if (auto good = check_line(attribute.house_word, name_length, "house word"); !good) return good;
  for (const auto& [field, text] : {std::pair{"definition", &attribute.definition},
                                    {"low end", &attribute.low},
                                    {"high end", &attribute.high},
                                    {"more", &attribute.more},
                                    {"less", &attribute.less}})
    if (auto good = check_line(*text, sentence_length, field); !good) return good;
  return {};
}

}  // namespace

Result<Ticket> Session::put(const Lot& lot) {
  if (auto may = inner_->may_write(); !may) return tl::unexpected<Error>(may.error());
  if (auto good = check_name(inner_->registers.lots, lot, &Lot::code, "lot code", true); !good)
    return tl::unexpected<Error>(good.error());
  if (auto good = check_texts<Lot>(lot, {{"name", &Lot::name},
                                         {"cultivar", &Lot::cultivar},
                                         {"origin", &Lot::origin},
                                         {"harvest", &Lot::harvest},
                                         {"allergens", &Lot::allergens}});
      !good)
    return tl::unexpected<Error>(good.error());
  put_into(inner_->registers.lots, lot);
  const auto ticket = inner_->keep([lot](store::Connection& db) { store::persist(db, lot); });
  inner_->tell({Part::registers, lot.id.text()});
  return ticket;
}

Result<Ticket> Session::put(const Water& water) {
  if (auto may = inner_->may_write(); !may) return tl::unexpected<Error>(may.error());
  if (auto good = check_name(inner_->registers.waters, water, &Water::name, "water", false); !good)
    return tl::unexpected<Error>(good.error());
  if (auto good = check_texts<Water>(water, {}); !good) return tl::unexpected<Error>(good.error());
  put_into(inner_->registers.waters, water);
  const auto ticket = inner_->keep([water](store::Connection& db) { store::persist(db, water); });
  inner_->tell({Part::registers, water.id.text()});
  return ticket;
}

Result<Ticket> Session::put(const Vessel& vessel) {
  if (auto may = inner_->may_write(); !may) return tl::unexpected<Error>(may.error());
  if (auto good = check_name(inner_->registers.vessels, vessel, &Vessel::name, "vessel", false); !good)
    return tl::unexpected<Error>(good.error());
  if (auto good = check_texts<Vessel>(vessel, {{"material", &Vessel::material}}); !good)
    return tl::unexpected<Error>(good.error());
  put_into(inner_->registers.vessels, vessel);
  const auto ticket = inner_->keep([vessel](store::Connection& db) { store::persist(db, vessel); });
  inner_->tell({Part::registers, vessel.id.text()});
  return ticket;
}

Result<Ticket> Session::put(const Assessor& assessor) {
  if (auto may = inner_->may_write(); !may) return tl::unexpected<Error>(may.error());
  if (auto good = check_name(inner_->registers.assessors, assessor, &Assessor::alias, "assessor", true); !good)
    return tl::unexpected<Error>(good.error());
  if (auto good = check_texts<Assessor>(assessor, {}); !good) return tl::unexpected<Error>(good.error());
  put_into(inner_->registers.assessors, assessor);
  const auto ticket = inner_->keep([assessor](store::Connection& db) { store::persist(db, assessor); });
  inner_->tell({Part::registers, assessor.id.text()});
  return ticket;
}

Result<Ticket> Session::put(const Attribute& attribute) {
  if (auto may = inner_->may_write(); !may) return tl::unexpected<Error>(may.error());
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; };
  if (attribute.id.empty() || !std::ranges::all_of(attribute.id, letter))
    return fail(ErrorKind::bad_value, "attribute", attribute.id, "lower-case letters, digits and _");
  if (const auto* built_in = find_attribute(builtin_attributes(), attribute.id)) {
    Attribute renamed = *built_in;
    renamed.house_word = attribute.house_word;
    if (!(renamed == attribute))
      return fail(ErrorKind::duplicate, "attribute", attribute.id,
                  "one that is not built in; of those a house may add its own word");
  }
  if (auto good = check_attribute_texts(attribute); !good) return tl::unexpected<Error>(good.error());
  put_into(inner_->attributes, attribute);
  const auto ticket = inner_->keep([attribute](store::Connection& db) { store::persist(db, attribute); });
  inner_->tell({Part::registers, attribute.id});
  return ticket;
}

namespace {

/// What of an import's records the book does not have yet. A record that is there under the same id stays as the book
/// has it; one name for two records cannot be.
template <class Record>
Result<std::vector<Record>> new_records(const std::vector<Record>& book, const std::vector<Record>& coming,
                                        std::string Record::*name, const char* field, bool unique) {
  std::vector<Record> fresh;
  for (const auto& record : coming) {
    if (find_record(book, record.id) != nullptr) continue;
    if (unique)
      for (const auto& other : book)
        if (other.*name == record.*name)
          return fail(ErrorKind::conflict, field, record.*name, "one that means the same in the book");
    fresh.push_back(record);
  }
  return fresh;
}

struct NewRecords {
  Registers registers;
  std::vector<Attribute> attributes;
};

Result<NewRecords> merge(const Registers& book, const std::vector<Attribute>& attributes, const TrialImport& import) {
  NewRecords fresh;
  auto lots = new_records(book.lots, import.registers.lots, &Lot::code, "lot code", true);
  if (!lots) return tl::unexpected<Error>(lots.error());
  auto people = new_records(book.assessors, import.registers.assessors, &Assessor::alias, "assessor", true);
  if (!people) return tl::unexpected<Error>(people.error());
  fresh.registers.lots = std::move(*lots);
  fresh.registers.assessors = std::move(*people);
  fresh.registers.waters = *new_records(book.waters, import.registers.waters, &Water::name, "water", false);
  fresh.registers.vessels = *new_records(book.vessels, import.registers.vessels, &Vessel::name, "vessel", false);
  for (const auto& attribute : import.attributes)
    if (find_attribute(attributes, attribute.id) == nullptr) fresh.attributes.push_back(attribute);
  return fresh;
}

void persist_import(store::Connection& db, const NewRecords& fresh, const Trial& trial, const std::string& digest) {
  for (const auto& lot : fresh.registers.lots) store::persist(db, lot);
  for (const auto& water : fresh.registers.waters) store::persist(db, water);
  for (const auto& vessel : fresh.registers.vessels) store::persist(db, vessel);
  for (const auto& assessor : fresh.registers.assessors) store::persist(db, assessor);
  for (const auto& attribute : fresh.attributes) store::persist(db, attribute);
  store::persist(db, nullptr, trial, digest);
}

template <class T>
void append(std::vector<T>& to, const std::vector<T>& from) {
  to.insert(to.end(), from.begin(), from.end());
}

}  // namespace

Result<ImportOutcome> Session::import_trial(const TrialImport& import) {
  if (auto may = inner_->may_write(); !may) return tl::unexpected<Error>(may.error());
  if (auto settled = inner_->settled(); !settled) return tl::unexpected<Error>(settled.error());
  const auto id = import.trial.id();
  auto& db = inner_->book->reading();
  if (store::has_trial(db, id)) {
    const auto here = read(id);
    if (!here) return tl::unexpected<Error>(here.error());
    const int number = (*here)->draft.number;
    const bool same = store::import_digest(db, id) == import.digest ||
                      trial_digest(**here, inner_->registers, inner_->attributes) == import.digest;
    if (same) return ImportOutcome{true, id, number};
    return fail(ErrorKind::conflict, "trial", fmt::format("trial {}", number),
                "the same trial unchanged, or another one", id.text());
  }
  const auto fresh = merge(inner_->registers, inner_->attributes, import);
  if (!fresh) return tl::unexpected<Error>(fresh.error());
  auto trial = std::make_shared<Trial>(import.trial);
  if (trial->draft.number < 1 || store::trial_of_number(db, trial->draft.number))
    trial->draft.number = store::next_number(db);
  const auto kept =
      inner_->writer->barrier([records = *fresh, trial, digest = import.digest](store::Connection& writing) {
        persist_import(writing, records, *trial, digest);
      });
  if (!kept) return tl::unexpected<Error>(kept.error());
  append(inner_->registers.lots, fresh->registers.lots);
  append(inner_->registers.waters, fresh->registers.waters);
  append(inner_->registers.vessels, fresh->registers.vessels);
  append(inner_->registers.assessors, fresh->registers.assessors);
  append(inner_->attributes, fresh->attributes);
  inner_->tell({Part::registers, {}});
  return ImportOutcome{false, id, trial->draft.number};
}

Result<void> Session::backup_to(const std::filesystem::path& copy) {
  if (auto settled = inner_->settled(); !settled) return settled;
  return inner_->book->backup_to(copy);
}

store::Health Session::check_book(const std::stop_token& stop, const Progress& progress) const {
  [[maybe_unused]] const auto settled = inner_->settled();
  return store::check_health(inner_->book->reading(), stop, progress);
}

}  // namespace likeleaf
