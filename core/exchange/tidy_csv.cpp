#include "core/exchange/tidy_csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <tuple>

#include "core/acts/unmask.h"
#include "core/codec/value_text.h"
#include "core/domain/asked.h"

namespace likeleaf::exchange {
namespace {

/// A sheet with what may be said of its cups at this stage.
struct Row {
  const BlindServing* serving = nullptr;
  const Sheet* sheet = nullptr;      ///< nullptr: nothing written yet
  const Pairing* pairing = nullptr;  ///< after unmask only
  std::string assessor;
  std::string excluded;
};

std::string lot_code(const Registers& registers, IdOf<Lot> id) {
  const auto* lot = find_record(registers.lots, id);
  return lot != nullptr ? lot->code : id.text();
}

/// Machine text of a level: a plain minus sign and a plain space, as in every column.
std::string machine_level(const Lever& lever, std::size_t level) {
  if (level < lever.levels.size() && is_numeric(lever.kind) && lever.levels[level].value) {
    CsvWriter number;
    number.scaled(*lever.levels[level].value, 3);
    const char* unit = lever.kind == LeverKind::water_temperature ? "°C"
                       : lever.kind == LeverKind::steep_time      ? "s"
                                                                  : "g";
    return number.take() + " " + unit;
  }
  return level_text(lever, level, Style{});
}

const char* yes_no(bool yes) {
  return yes ? "yes" : "no";
}

class Tables {
 public:
  Tables(const Trial& trial, const Unmasked* unmasked) : trial_(trial), sealed_(*trial.sealed), unmasked_(unmasked) {
    gather();
  }

  std::string marks() {
    CsvWriter out;
    open_head(out, {"attribute", "field", "value", "unit", "answer", "direct", "entered"});
    for (const auto& row : rows_)
      for (const Side side : {Side::left, Side::right})
        for (const auto& attribute : sealed_.attributes)
          for (const auto& field : mark_fields(attribute)) mark_row(out, row, side, attribute, field);
    return out.take();
  }

  std::string words() {
    CsvWriter out;
    open_head(out, {"word", "strength", "fault", "fault_note", "note"});
    for (const auto& row : rows_)
      for (const Side side : {Side::left, Side::right}) word_rows(out, row, side);
    return out.take();
  }

  std::string brews() const {
    CsvWriter out;
    out.row({"trial", "brew", "lot", "brew_pair", "level", "sitting", "portion", "leaf_g", "infusion", "pour_c",
             "water_g", "steep_typed_s", "contact_s", "strength_percent", "ph", "chill", "note"});
    std::vector<const Brew*> brews;
    for (const auto& [id, brew] : trial_.brews) brews.push_back(brew.get());
    std::sort(brews.begin(), brews.end(),
              [](const Brew* a, const Brew* b) { return std::tie(a->number, a->id) < std::tie(b->number, b->id); });
    for (const auto* brew : brews)
      for (int i = 1; i <= infusion_count(sealed_.plan, *brew); ++i) brew_row(out, *brew, i);
    return out.take();
  }

 private:
  void gather() {
    std::map<IdOf<Serving>, const Pairing*> pairings;
    if (unmasked_ != nullptr)
      for (const auto& pairing : unmasked_->pairings()) pairings[pairing.serving] = &pairing;
    for (const auto* serving : live_servings(trial_)) {
      Row row{serving, nullptr, nullptr, alias_of(sealed_.registers, serving->assessor), {}};
      const auto sheet = trial_.sheets.find(serving->id);
      if (sheet != trial_.sheets.end()) row.sheet = sheet->second.get();
      if (const auto pairing = pairings.find(serving->id); pairing != pairings.end()) {
        row.pairing = pairing->second;
        row.sheet = pairing->second->sheet.get();
      }
      row.excluded = excluded(*serving);
      rows_.push_back(std::move(row));
    }
    std::stable_sort(rows_.begin(), rows_.end(), [](const Row& a, const Row& b) {
      return std::tie(a.serving->sitting, a.serving->place, a.assessor) <
             std::tie(b.serving->sitting, b.serving->place, b.assessor);
    });
  }
  [[nodiscard]] std::string excluded(const BlindServing& serving) const {
    for (const auto& exclusion : trial_.exclusions)
      if (exclusion.serving == serving.id)
        return trial_.unmasked && exclusion.at.utc_ms > trial_.unmasked->at.utc_ms ? "after unmask" : "before unmask";
    return {};
  }

  void open_head(CsvWriter& out, const std::vector<std::string_view>& more) const {
    std::vector<std::string_view> head{"trial", "sitting", "place"};
    if (unmasked_ != nullptr)
      head.insert(head.end(), {"pair_kind", "lot", "brew_pair", "level", "reference", "dilution_percent"});
    head.insert(head.end(), {"assessor", "code", "other_code", "side", "sipped_first", "locked", "excluded"});
    head.insert(head.end(), more.begin(), more.end());
    out.row(head);
  }
  void open_cells(CsvWriter& out, const Row& row, Side side) const {
    const auto& serving = *row.serving;
    out.number(sealed_.plan.number).number(serving.sitting).number(serving.place);
    if (unmasked_ != nullptr) keyed_cells(out, row, side);
    const Side first = row.sheet != nullptr && row.sheet->sipped_first ? *row.sheet->sipped_first : serving.first;
    const BlindCode mine = side == Side::left ? serving.left : serving.right;
    const BlindCode others = side == Side::left ? serving.right : serving.left;
    out.text(row.assessor)
        .plain(mine.text())
        .plain(others.text())
        .plain(codec::word_of(side))
        .plain(yes_no(first == side));
    out.plain(yes_no(row.sheet != nullptr && row.sheet->locked)).plain(row.excluded);
  }
  void keyed_cells(CsvWriter& out, const Row& row, Side side) const {
    if (row.pairing == nullptr) {
      for (int i = 0; i < 6; ++i) out.blank();
      return;
    }
    const auto& pairing = *row.pairing;
    const bool is_b = side == pairing.side_b;
    const std::size_t level = is_b ? pairing.levels.b : pairing.levels.a;
    const auto& lever = sealed_.plan.lever;
    out.plain(codec::word_of(pairing.kind)).text(lot_code(sealed_.registers, pairing.lot));
    if (pairing.set > 0)
      out.number(pairing.set);
    else
      out.blank();
    out.text(machine_level(lever, level)).plain(yes_no(level == lever.reference()));
    out.scaled(is_b ? pairing.dilution_b.count() : 0, 1);
  }

  void mark_row(CsvWriter& out, const Row& row, Side side, const Attribute& attribute, const std::string& field) const {
    open_cells(out, row, side);
    out.text(attribute.id).text(field);
    const Mark* mark = nullptr;
    if (row.sheet != nullptr) {
      const auto& marks = row.sheet->cup(side).marks;
      if (const auto found = marks.find(field); found != marks.end()) mark = &found->second;
    }
    const char* unit = attribute.scale == Scale::seconds ? "seconds" : "points";
    if (mark == nullptr) {
      out.blank().plain(unit).plain("blank");
    } else if (const auto* score = std::get_if<Score>(mark)) {
      out.scaled(score->halves() * 5, 1).plain(unit).plain("score");
    } else if (const auto* time = std::get_if<FinishTime>(mark); time != nullptr && !time->cut_off()) {
      out.number(time->seconds()).plain(unit).plain("score");
    } else {
      out.blank().plain(unit).plain(mark_text(*mark));
    }
    out.plain(direct(row, attribute.id)).plain(mark == nullptr ? "" : entered(*row.sheet, side, field));
    out.end_row();
  }
  /// How a mark came into the book; of a paper sheet whether both entries hold it.
  [[nodiscard]] static std::string entered(const Sheet& sheet, Side side, const std::string& field) {
    if (sheet.entered_by != EnteredBy::paper) return codec::word_of(sheet.entered_by);
    return sheet.second.cup(side).contains(field) ? "paper twice" : "paper once";
  }
  [[nodiscard]] static std::string direct(const Row& row, const std::string& attribute) {
    if (row.sheet == nullptr) return {};
    const auto found = row.sheet->directs.find(attribute);
    return found == row.sheet->directs.end() ? std::string() : codec::word_of(found->second);
  }

  void word_rows(CsvWriter& out, const Row& row, Side side) const {
    if (row.sheet == nullptr) return;
    const auto& cup = row.sheet->cup(side);
    auto words = cup.words;
    // A cup with a fault or a note but without a word still has its row.
    const bool has_note = side == Side::left && !row.sheet->note.empty();
    if (words.empty() && (cup.fault || has_note)) words.push_back({});
    for (const auto& word : words) {
      open_cells(out, row, side);
      out.text(word.word);
      if (word.strength)
        out.number(*word.strength);
      else
        out.blank();
      out.plain(yes_no(cup.fault)).text(cup.fault_note).text(row.sheet->note);
      out.end_row();
    }
  }

  template <class Quantity>
  static void maybe(CsvWriter& out, const std::optional<Quantity>& value) {
    if (value)
      out.scaled(value->count(), 3);
    else
      out.blank();
  }
  static void maybe_hundredths(CsvWriter& out, const std::optional<std::int64_t>& value) {
    if (value)
      out.scaled(*value, 2);
    else
      out.blank();
  }
  void brew_row(CsvWriter& out, const Brew& brew, int number) const {
    const auto index = static_cast<std::size_t>(number - 1);
    const Infusion infusion = index < brew.infusions.size() ? brew.infusions[index] : Infusion{};
    out.number(sealed_.plan.number).number(brew.number).text(lot_code(sealed_.registers, brew.lot)).number(brew.set);
    out.text(machine_level(sealed_.plan.lever, brew.level)).number(brew.sitting).number(brew.portion);
    maybe(out, brew.leaf);
    out.number(number);
    if (infusion.pour)
      out.scaled(infusion.pour->milli_celsius(), 3);
    else
      out.blank();
    maybe(out, infusion.water);
    maybe(out, infusion.steep);
    maybe(out, contact_time(brew, number));
    maybe_hundredths(out, brew.tds_permyriad);
    maybe_hundredths(out, brew.ph_hundredths);
    out.text(brew.chill).text(brew.note);
    out.end_row();
  }

  const Trial& trial_;
  const SealedPlan& sealed_;
  const Unmasked* unmasked_;
  std::vector<Row> rows_;
};

}  // namespace

Result<std::vector<CsvFile>> tidy_csv(const std::shared_ptr<const Trial>& trial) {
  if (!trial || !trial->sealed) return fail(ErrorKind::not_allowed, "tables", "a plan", "a sealed trial");
  if (!trial->unmasked) {
    Tables tables(*trial, nullptr);
    return std::vector<CsvFile>{{"marks.csv", tables.marks()}, {"words.csv", tables.words()}};
  }
  const auto unmasked = open_unmasked(trial);
  if (!unmasked) return tl::unexpected(unmasked.error());
  Tables tables(*trial, &*unmasked);
  return std::vector<CsvFile>{
      {"marks.csv", tables.marks()}, {"words.csv", tables.words()}, {"brews.csv", tables.brews()}};
}

}  // namespace likeleaf::exchange
