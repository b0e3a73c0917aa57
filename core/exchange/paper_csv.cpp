#include "core/exchange/paper_csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "core/base/line_text.h"
#include "core/base/number_text.h"
#include "core/codec/builtin.h"
#include "core/codec/seal.h"
#include "core/codec/trial_document.h"
#include "core/exchange/bundle_read.h"
#include "core/exchange/paper_levels.h"
#include "core/exchange/paper_tables.h"

namespace likeleaf::exchange {
namespace {

/// Ids that follow from what they stand for, shaped as version 4 like all ids.
template <class Record>
IdOf<Record> id_from(const std::string& meaning) {
  std::string hex = Digest::of("likeleaf paper " + meaning).hex().substr(0, 32);
  hex[12] = '4';
  hex[16] = '8';
  for (const std::size_t at : {20u, 16u, 12u, 8u}) hex.insert(at, "-");
  return *IdOf<Record>::parse(hex);
}

std::array<std::uint8_t, 32> bytes_from(const std::string& meaning) {
  return Digest::of("likeleaf paper " + meaning).bytes();
}

/// The cells of a table without what a spreadsheet changes on its own (separators, quotes, line ends).
std::string content_of(const CsvTable& table) {
  std::string out;
  for (const auto& row : table.rows)
    for (const auto& cell : row.cells) out += fmt::format("{}:{}", cell.size(), cell);
  return out;
}

/// Two codes of one brew pair that an assessor tasted against each other.
using CodePair = std::pair<BlindCode, BlindCode>;

/// One assessor's rows on one pair, in the order of the table.
struct PaperSheet {
  std::string assessor;
  CodePair codes;
  std::vector<const PaperMark*> marks;
};

class PaperTrial {
 public:
  PaperTrial(const CsvTable& sheets, const CsvTable& key, const PaperOptions& options)
      : sheets_(sheets), key_(key), options_(options) {}

  Result<TrialImport> build() {
    if (auto good = check_options(); !good) return tl::unexpected(good.error());
    identity_ = Digest::of(content_of(sheets_) + "|" + content_of(key_)).hex();
    for (auto step :
         {&PaperTrial::read_rows, &PaperTrial::find_lever, &PaperTrial::gather_sheets, &PaperTrial::make_registers,
          &PaperTrial::make_plan, &PaperTrial::make_key, &PaperTrial::make_sheets, &PaperTrial::close})
      if (auto done = (this->*step)(); !done) return tl::unexpected(done.error());
    return std::move(import_);
  }

 private:
  /// What was said beside the tables stands in the plan: the same limits as on screen.
  [[nodiscard]] Result<void> check_options() const {
    for (const auto& [field, text, most] : {std::tuple{"house", &options_.house, name_length},
                                            {"question", &options_.question, sentence_length},
                                            {"what changes", &options_.lever_name, name_length}})
      if (const auto line = parse_line(*text, most, field); !line) {
        Error error = line.error();
        error.value = fmt::format("{} ({})", shown_value(*text), error.value);
        return tl::unexpected(std::move(error));
      }
    for (const auto* table : {&sheets_, &key_})
      if (table->rows.size() > most_table_rows)
        return fail(ErrorKind::too_large, "rows", fmt::format("{}", table->rows.size()),
                    fmt::format("at most {}", most_table_rows), table->file);
    return {};
  }
  [[nodiscard]] std::string key_place(int line) const { return csv_place(key_, line, -1); }
  [[nodiscard]] std::string sheet_place(int line) const { return csv_place(sheets_, line, -1); }
  [[nodiscard]] const PaperKeyRow& row_of(BlindCode code) const { return *by_code_.at(code); }
  template <class Record>
  [[nodiscard]] IdOf<Record> own_id(const std::string& meaning) const {
    return id_from<Record>(identity_ + " " + meaning);
  }
  [[nodiscard]] IdOf<Brew> brew_id(const PaperKeyRow& row) const {
    return own_id<Brew>(fmt::format("brew {} {} {}", row.brew_pair, level_of(row), row.lot));
  }
  [[nodiscard]] IdOf<Pair> pair_id(const CodePair& codes) const {
    return own_id<Pair>(fmt::format("pair {} {}", codes.first.number(), codes.second.number()));
  }
  [[nodiscard]] IdOf<Serving> serving_id(const PaperSheet& sheet) const {
    return own_id<Serving>(
        fmt::format("serving {} {} {}", sheet.codes.first.number(), sheet.codes.second.number(), sheet.assessor));
  }
  [[nodiscard]] std::size_t level_of(const PaperKeyRow& row) const { return levels_.index.at(row.level); }

  Result<void> read_rows() {
    auto keys = read_key_rows(key_);
    if (!keys) return tl::unexpected(keys.error());
    auto marks = read_mark_rows(sheets_);
    if (!marks) return tl::unexpected(marks.error());
    key_rows_ = std::move(*keys);
    marks_ = std::move(*marks);
    for (const auto& row : key_rows_) by_code_[row.code] = &row;
    for (const auto& mark : marks_) {
      if (by_code_.count(mark.code) == 0)
        return fail(ErrorKind::not_found, "code", mark.code.text(), fmt::format("a code of {}", key_.file),
                    csv_place(sheets_, mark.line, 0));
      if (mark.first_cup && by_code_.count(*mark.first_cup) == 0)
        return fail(ErrorKind::not_found, "first cup", mark.first_cup->text(), fmt::format("a code of {}", key_.file),
                    sheet_place(mark.line));
    }
    return {};
  }

  Result<void> find_lever() {
    std::vector<PaperLevelCell> cells;
    for (const auto& row : key_rows_) cells.push_back({row.level, csv_place(key_, row.line, -1)});
    auto levels = read_levels(cells, options_);
    if (!levels) return tl::unexpected(levels.error());
    levels_ = std::move(*levels);
    return {};
  }

  /// Which two cups an assessor tasted against each other follows from the brew pair that they share.
  Result<void> gather_sheets() {
    std::map<std::tuple<std::string, std::string, int>, std::vector<BlindCode>> cups;
    for (const auto& mark : marks_) {
      auto& codes = cups[group_of(mark)];
      if (std::find(codes.begin(), codes.end(), mark.code) == codes.end()) codes.push_back(mark.code);
    }
    std::map<std::tuple<std::string, std::string, int>, std::size_t> seen;
    std::map<BlindCode, BlindCode> partner;
    for (const auto& mark : marks_) {
      const auto group = group_of(mark);
      if (!seen.emplace(group, sheet_rows_.size()).second) continue;
      auto codes = cups[group];
      std::sort(codes.begin(), codes.end());
      if (auto good = check_pair(codes, mark, partner); !good) return good;
      sheet_rows_.push_back({mark.assessor, {codes[0], codes[1]}, {}});
    }
    for (const auto& mark : marks_) sheet_rows_[seen.at(group_of(mark))].marks.push_back(&mark);
    return {};
  }
  [[nodiscard]] std::tuple<std::string, std::string, int> group_of(const PaperMark& mark) const {
    const auto& row = row_of(mark.code);
    return {mark.assessor, row.lot, row.brew_pair};
  }
  Result<void> check_pair(const std::vector<BlindCode>& codes, const PaperMark& mark,
                          std::map<BlindCode, BlindCode>& partner) const {
    const auto& row = row_of(mark.code);
    const std::string what = fmt::format("{}, {}, brew pair {}", mark.assessor, row.lot, row.brew_pair);
    if (codes.size() != 2) {
      std::string list;
      for (const auto code : codes) list += (list.empty() ? "" : ", ") + code.text();
      return fail(codes.size() < 2 ? ErrorKind::missing : ErrorKind::bad_value, what, list,
                  "two cups of each brew pair in the sheets of one assessor", sheet_place(mark.line));
    }
    const auto contrast = contrast_of(codes[0], codes[1]);
    if (level_of(row_of(codes[0])) == level_of(row_of(codes[1])))
      return fail(ErrorKind::bad_value, what, fmt::format("both cups at {}", row.level), "two different levels",
                  key_place(row_of(codes[1]).line));
    if (!contrast)
      return fail(ErrorKind::bad_value, what,
                  fmt::format("{} against {}", row_of(codes[0]).level, row_of(codes[1]).level),
                  "the reference level against one other", key_place(row_of(codes[1]).line));
    for (const auto& [one, two] : {std::pair(codes[0], codes[1]), std::pair(codes[1], codes[0])})
      if (partner.emplace(one, two).first->second != two)
        return fail(ErrorKind::duplicate, "code", one.text(), "each code in one pair", sheet_place(mark.line));
    return {};
  }
  [[nodiscard]] std::optional<Contrast> contrast_of(BlindCode one, BlindCode two) const {
    const std::size_t x = level_of(row_of(one)), y = level_of(row_of(two));
    for (const auto& contrast : contrasts(levels_.lever))
      if ((contrast.a == x && contrast.b == y) || (contrast.a == y && contrast.b == x)) return contrast;
    return std::nullopt;
  }

  /// Records of the book by code or alias; else new ones, the same every time for this house.
  Result<void> make_registers() {
    for (const auto& row : key_rows_) {
      if (lots_.count(row.lot) != 0) continue;
      const auto& book = options_.known.lots;
      const auto known = std::find_if(book.begin(), book.end(), [&](const Lot& lot) { return lot.code == row.lot; });
      Lot lot;
      if (known != book.end())
        lot = *known;
      else
        lot.id = id_from<Lot>("lot " + options_.house + " " + row.lot), lot.code = row.lot, lot.name = row.lot;
      lots_[row.lot] = lot.id;
      import_.registers.lots.push_back(lot);
    }
    for (const auto& sheet : sheet_rows_) {
      if (assessors_.count(sheet.assessor) != 0) continue;
      const auto& book = options_.known.assessors;
      const auto known =
          std::find_if(book.begin(), book.end(), [&](const Assessor& who) { return who.alias == sheet.assessor; });
      const Assessor assessor =
          known != book.end()
              ? *known
              : Assessor{id_from<Assessor>("assessor " + options_.house + " " + sheet.assessor), sheet.assessor, {}};
      assessors_[sheet.assessor] = assessor.id;
      import_.registers.assessors.push_back(assessor);
    }
    return {};
  }

  Result<void> make_plan() {
    Plan& plan = import_.trial.draft;
    plan.id = own_id<Trial>("trial");
    plan.number = options_.number;
    plan.house = options_.house;
    plan.lever = levels_.lever;
    const std::string changes = plan.lever.kind == LeverKind::other ? plan.lever.name : lever_name(plan.lever.kind);
    plan.question = !options_.question.empty() ? options_.question : fmt::format("What does {} do?", changes);
    for (const auto& lot : import_.registers.lots) plan.lots.push_back(lot.id);
    for (const auto& assessor : import_.registers.assessors) plan.assessors.push_back({assessor.id, Role::taster});
    std::map<std::string, int> sheets_of;
    for (const auto& sheet : sheet_rows_)
      plan.pairs_per_sitting = std::max(sheets_of[sheet.assessor] += 1, plan.pairs_per_sitting);
    plan.sittings = 1;
    plan.brew_pairs = most_brew_pairs();
    plan.notes = "Read from the two tables of a finished paper trial: nothing was sealed beforehand.";
    if (options_.tasting_temperature) {
      Constant warmth;
      warmth.kind = ConstantKind::tasting_temperature;
      warmth.target = options_.tasting_temperature->milli_celsius();
      plan.constants.push_back(warmth);
    }
    note_untasted(plan);
    return add_attributes(plan);
  }
  [[nodiscard]] int most_brew_pairs() const {
    std::map<std::pair<std::string, std::size_t>, std::set<int>> sets;
    for (const auto& sheet : sheet_rows_) {
      const auto& row = row_of(sheet.codes.first);
      sets[{row.lot, contrast_of(sheet.codes.first, sheet.codes.second)->b}].insert(row.brew_pair);
    }
    std::size_t most = 1;
    for (const auto& [lot, of_lot] : sets) most = std::max(most, of_lot.size());
    return static_cast<int>(most);
  }
  /// A code of the key that nobody tasted takes no part; it is not forgotten either.
  void note_untasted(Plan& plan) const {
    std::set<BlindCode> tasted;
    for (const auto& mark : marks_) tasted.insert(mark.code);
    std::string list;
    for (const auto& row : key_rows_)
      if (tasted.count(row.code) == 0) list += (list.empty() ? "" : ", ") + row.code.text();
    if (list.empty()) return;
    // A few hundred codes are more than notes hold: the rest are still in the key.
    constexpr std::size_t room = 3600;
    if (list.size() > room) list = list.substr(0, list.rfind(',', room)) + ", …";
    plan.notes += " In the key without a sheet: " + list + ".";
  }
  Result<void> add_attributes(Plan& plan) {
    std::set<std::string> present;
    for (const auto& mark : marks_) present.insert(mark.attribute);
    for (const auto& attribute : builtin_attributes()) {
      if (present.count(attribute.id) == 0) continue;
      import_.attributes.push_back(attribute);
      plan.attributes.push_back({attribute.id, false, attribute.margin, Expectation::none});
    }
    for (const auto& deciding : options_.deciding) {
      const auto named =
          std::find_if(plan.attributes.begin(), plan.attributes.end(), [&](const PlanAttribute& attribute) {
            const auto* known = find_attribute(import_.attributes, attribute.attribute);
            const std::string wanted = plain_name(deciding.attribute);
            return wanted == plain_name(known->id) || wanted == plain_name(known->name);
          });
      if (named == plan.attributes.end()) {
        std::string list;
        for (const auto& attribute : plan.attributes) list += (list.empty() ? "" : ", ") + attribute.attribute;
        return fail(ErrorKind::not_found, "deciding attribute", shown_value(deciding.attribute),
                    "one that was scored: " + list, sheets_.file);
      }
      named->deciding = true;
      if (deciding.margin) named->margin = *deciding.margin;
    }
    return {};
  }

  Result<void> make_key() {
    Key key;
    key.seed = bytes_from(identity_ + " seed");
    key.salt = bytes_from(identity_ + " salt");
    key.generator = "paper";
    std::set<CodePair> done;
    std::map<std::string, int> portions;
    for (const auto& sheet : sheet_rows_) {
      if (!done.insert(sheet.codes).second) continue;
      for (const auto code : {sheet.codes.first, sheet.codes.second}) add_brew(key, row_of(code), portions);
      const Contrast contrast = *contrast_of(sheet.codes.first, sheet.codes.second);
      const bool first_is_a = level_of(row_of(sheet.codes.first)) == contrast.a;
      const BlindCode a = first_is_a ? sheet.codes.first : sheet.codes.second;
      const BlindCode b = first_is_a ? sheet.codes.second : sheet.codes.first;
      const auto& row = row_of(a);
      key.pairs.push_back({pair_id(sheet.codes),
                           PairKind::contrast,
                           lots_.at(row.lot),
                           row.brew_pair,
                           contrast.a,
                           contrast.b,
                           1,
                           a,
                           b,
                           {brew_id(row_of(a)), Permille(0)},
                           {brew_id(row_of(b)), Permille(0)},
                           std::nullopt});
    }
    import_.trial.key = std::make_shared<const Key>(std::move(key));
    return {};
  }
  /// Codes of one lot, brew pair and level are cups of one brew, whoever got them.
  void add_brew(Key& key, const PaperKeyRow& row, std::map<std::string, int>& portions) {
    const auto id = brew_id(row);
    if (import_.trial.brews.count(id) != 0) return;
    PlannedBrew planned{id,
                        static_cast<int>(key.brews.size()) + 1,
                        lots_.at(row.lot),
                        level_of(row),
                        row.brew_pair,
                        1,
                        ++portions[row.lot]};
    Brew brew;
    brew.id = id;
    brew.number = planned.number;
    brew.lot = planned.lot;
    brew.level = planned.level;
    brew.set = planned.set;
    brew.portion = planned.portion;
    brew.infusions.resize(1);
    key.brews.push_back(planned);
    import_.trial.brews[id] = std::make_shared<const Brew>(std::move(brew));
  }

  Result<void> make_sheets() {
    std::map<std::string, int> places, totals;
    for (const auto& row : sheet_rows_) ++totals[row.assessor];
    for (const auto& row : sheet_rows_) {
      const auto first = first_cup(row);
      if (!first) return tl::unexpected(first.error());
      // Where the cups stood is not known; which was sipped first is. The smaller code is put left for all alike.
      const Side side = *first == row.codes.first ? Side::left : Side::right;
      import_.trial.servings.push_back({serving_id(row), assessors_.at(row.assessor), pair_id(row.codes), 1,
                                        ++places[row.assessor], totals[row.assessor], row.codes.first, row.codes.second,
                                        side, std::nullopt});
      Sheet sheet;
      sheet.serving = serving_id(row);
      sheet.entered_by = EnteredBy::import;
      sheet.sipped_first = side;
      if (auto filled = fill_marks(sheet, row); !filled) return filled;
      sheet.locked = options_.tasted;
      sheet.digest = sheet_digest(sheet);
      const auto serving = sheet.serving;
      import_.trial.sheets[serving] = std::make_shared<const Sheet>(std::move(sheet));
    }
    return {};
  }
  Result<void> fill_marks(Sheet& sheet, const PaperSheet& row) const {
    std::set<std::pair<BlindCode, std::string>> seen;
    for (const auto* mark : row.marks) {
      if (!seen.insert({mark->code, mark->field}).second)
        return fail(ErrorKind::duplicate, fmt::format("{}, cup {}", mark->field, mark->code.text()), row.assessor,
                    "one row for each assessor, code and attribute", sheet_place(mark->line));
      if (mark->mark)
        sheet.cup(mark->code == row.codes.first ? Side::left : Side::right).marks.emplace(mark->field, *mark->mark);
    }
    return {};
  }
  /// All rows of a pair must agree on which cup came first, and one of them must say it.
  Result<BlindCode> first_cup(const PaperSheet& row) const {
    std::optional<BlindCode> first;
    for (const auto* mark : row.marks) {
      std::optional<BlindCode> said = mark->first_cup;
      if (mark->this_first)
        said = *mark->this_first ? mark->code : mark->code == row.codes.first ? row.codes.second : row.codes.first;
      if (!said) continue;
      const std::string allowed = fmt::format("{} or {}", row.codes.first.text(), row.codes.second.text());
      if (*said != row.codes.first && *said != row.codes.second)
        return fail(ErrorKind::bad_value, "first cup", said->text(), allowed, sheet_place(mark->line));
      if (first && *first != *said)
        return fail(ErrorKind::conflict, "first cup", said->text(),
                    fmt::format("{}, as in an earlier row of this pair", first->text()), sheet_place(mark->line));
      first = said;
    }
    if (first) return *first;
    return fail(
        ErrorKind::missing,
        fmt::format("first cup of {}, cups {} and {}", row.assessor, row.codes.first.text(), row.codes.second.text()),
        {}, "the code that was sipped first, in one row of the pair", sheet_place(row.marks.front()->line));
  }

  /// Seals and unmasks with what was read; the tables were open all along, which paper_import says.
  Result<void> close() {
    Trial& trial = import_.trial;
    trial.created = options_.tasted;
    auto sealed = std::make_shared<SealedPlan>();
    sealed->plan = trial.draft;
    sealed->registers = import_.registers;
    sealed->attributes = import_.attributes;
    sealed->sealed = options_.tasted;
    sealed->paper_import = true;
    Key key = *trial.key;
    take_digests(*sealed, key);
    trial.key = std::make_shared<const Key>(std::move(key));
    trial.sealed = std::move(sealed);
    trial.unmasked = UnmaskRecord{options_.tasted, "paper tables", sheets_digest(trial), true, true, true};
    import_.digest = trial_digest(trial, import_.registers, import_.attributes);
    return check_import(import_);
  }

  const CsvTable& sheets_;
  const CsvTable& key_;
  const PaperOptions& options_;
  std::string identity_;  ///< of the tables' content: what all ids follow from
  std::vector<PaperKeyRow> key_rows_;
  std::vector<PaperMark> marks_;
  std::map<BlindCode, const PaperKeyRow*> by_code_;
  PaperLevels levels_;
  std::vector<PaperSheet> sheet_rows_;
  std::map<std::string, IdOf<Lot>> lots_;
  std::map<std::string, IdOf<Assessor>> assessors_;
  TrialImport import_;
};

}  // namespace

Result<TrialImport> read_paper(std::string_view sheets_csv, std::string_view key_csv, const PaperOptions& options) {
  const auto sheets = read_csv(sheets_csv, options.sheets_file);
  if (!sheets) return tl::unexpected(sheets.error());
  const auto key = read_csv(key_csv, options.key_file);
  if (!key) return tl::unexpected(key.error());
  return PaperTrial(*sheets, *key, options).build();
}

}  // namespace likeleaf::exchange
