#include "core/exchange/paper_tables.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/base/line_text.h"
#include "core/base/number_text.h"
#include "core/codec/builtin.h"

namespace likeleaf::exchange {
namespace {

/// A table with its columns found, giving cells and places by the number of the wanted column.
class Columns {
 public:
  Columns(const CsvTable& table, std::vector<std::size_t> columns) : table_(table), columns_(std::move(columns)) {}
  [[nodiscard]] const std::string& cell(const CsvRow& row, std::size_t wanted) const {
    return row.cells[columns_[wanted]];
  }
  [[nodiscard]] std::string place(const CsvRow& row, std::size_t wanted) const {
    return csv_place(table_, row.line, static_cast<int>(columns_[wanted]));
  }
  /// A name: one line, no longer than names are.
  Result<std::string> filled(const CsvRow& row, std::size_t wanted, const char* field) const {
    if (cell(row, wanted).empty()) return fail(ErrorKind::missing, field, {}, "not empty", place(row, wanted));
    auto line = parse_line(cell(row, wanted), name_length, field);
    if (line && line->empty()) return fail(ErrorKind::missing, field, {}, "not empty", place(row, wanted));
    if (line) return line;
    Error error = line.error();
    error.value = fmt::format("{} ({})", shown_value(cell(row, wanted)), error.value);
    error.where = place(row, wanted);
    return tl::unexpected(std::move(error));
  }

 private:
  const CsvTable& table_;
  std::vector<std::size_t> columns_;
};

Error at_place(Error error, std::string where) {
  error.where = std::move(where);
  return error;
}

Result<BlindCode> read_code(const std::string& cell, const char* field, const std::string& where) {
  const auto number = parse_decimal(cell, 0, 100, 999, field, "a code of three digits, 100 to 999");
  if (!number) return tl::unexpected(at_place(number.error(), where));
  return *BlindCode::from(static_cast<int>(*number));
}

std::optional<bool> yes_or_no(const std::string& cell) {
  const std::string word = plain_name(cell);
  for (const char* yes : {"yes", "y", "true", "first", "1"})
    if (word == yes) return true;
  for (const char* no : {"no", "n", "false", "second", "2", "0"})
    if (word == no) return false;
  return std::nullopt;
}

Result<void> read_first_cup(PaperMark& mark, const std::string& cell, const std::string& where) {
  if (cell.empty()) return {};
  mark.this_first = yes_or_no(cell);
  if (mark.this_first) return {};
  const auto number =
      parse_decimal(cell, 0, 100, 999, "first cup", "one of the pair's two codes, or yes or no for this code");
  if (!number) return tl::unexpected(at_place(number.error(), where));
  mark.first_cup = BlindCode::from(static_cast<int>(*number));
  return {};
}

Result<PaperKeyRow> read_key_row(const Columns& columns, const CsvRow& row) {
  const auto code = read_code(columns.cell(row, 0), "code", columns.place(row, 0));
  if (!code) return tl::unexpected(code.error());
  const auto lot = columns.filled(row, 1, "lot");
  if (!lot) return tl::unexpected(lot.error());
  const auto set = parse_decimal(columns.cell(row, 2), 0, 1, 10000, "brew pair", "a whole number, 1 or more");
  if (!set) return tl::unexpected(at_place(set.error(), columns.place(row, 2)));
  const auto level = columns.filled(row, 3, "level");
  if (!level) return tl::unexpected(level.error());
  return PaperKeyRow{*code, *lot, static_cast<int>(*set), *level, row.line};
}

Result<PaperMark> read_mark_row(const Columns& columns, const CsvRow& row) {
  const auto code = read_code(columns.cell(row, 0), "code", columns.place(row, 0));
  if (!code) return tl::unexpected(code.error());
  const auto assessor = columns.filled(row, 1, "assessor");
  if (!assessor) return tl::unexpected(assessor.error());
  const auto field = paper_field(columns.cell(row, 2), columns.place(row, 2));
  if (!field) return tl::unexpected(field.error());
  PaperMark mark{*code, *assessor, field->attribute->id, field->field, {}, {}, {}, row.line};
  if (!columns.cell(row, 3).empty()) {
    const auto value = parse_mark(field->attribute->scale, columns.cell(row, 3),
                                  fmt::format("{}, cup {}", plain_name(field->attribute->name), code->text()));
    if (!value) return tl::unexpected(at_place(value.error(), columns.place(row, 3)));
    mark.mark = *value;
  }
  if (auto read = read_first_cup(mark, columns.cell(row, 4), columns.place(row, 4)); !read)
    return tl::unexpected(read.error());
  return mark;
}

std::string builtin_names() {
  std::string names;
  for (const auto& attribute : builtin_attributes()) {
    if (!names.empty()) names += ", ";
    if (attribute.scale != Scale::register_bands) {
      names += attribute.id;
      continue;
    }
    const auto fields = mark_fields(attribute);
    for (std::size_t i = 0; i < fields.size(); ++i) names += (i > 0 ? ", " : "") + fields[i];
  }
  return names;
}

/// All the names a cell may use for one field of a sheet.
bool names_field(const std::string& name, const Attribute& attribute, const std::string& field) {
  if (attribute.scale != Scale::register_bands)
    return name == plain_name(attribute.id) || name == plain_name(attribute.name);
  const std::string band = field.substr(field.find('.') + 1);
  for (const auto& base : {attribute.id, attribute.name})
    for (const char* joint : {".", " "})
      if (name == plain_name(base + joint + band)) return true;
  return name == band + " notes";
}

}  // namespace

std::string plain_name(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool gap = c == ' ' || c == '_' || c == '-';
    if (gap && (out.empty() || out.back() == ' ')) continue;
    out += gap ? ' ' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

Result<std::vector<std::size_t>> find_columns(const CsvTable& table,
                                              const std::vector<std::vector<std::string>>& names) {
  std::vector<std::size_t> found;
  for (const auto& wanted : names) {
    std::optional<std::size_t> column;
    for (std::size_t i = 0; i < table.head.cells.size(); ++i) {
      if (std::find(wanted.begin(), wanted.end(), plain_name(table.head.cells[i])) == wanted.end()) continue;
      if (column)
        return fail(ErrorKind::duplicate, "column", wanted.front(), "each column once",
                    csv_place(table, table.head.line, static_cast<int>(i)));
      column = i;
    }
    if (!column) {
      std::string all;
      for (const auto& name : names) all += (all.empty() ? "" : ", ") + name.front();
      return fail(ErrorKind::missing, fmt::format("column \"{}\"", wanted.front()), {}, "the columns " + all,
                  csv_place(table, table.head.line, -1));
    }
    found.push_back(*column);
  }
  return found;
}

Result<PaperField> paper_field(std::string_view cell, const std::string& where) {
  const std::string name = plain_name(cell);
  for (const auto& attribute : builtin_attributes())
    for (const auto& field : mark_fields(attribute))
      if (names_field(name, attribute, field)) return PaperField{&attribute, field};
  return fail(ErrorKind::not_found, "attribute", shown_value(cell), "one of " + builtin_names(), where);
}

Result<std::vector<PaperKeyRow>> read_key_rows(const CsvTable& table) {
  auto found = find_columns(table, {{"code"}, {"lot"}, {"brew pair", "pair"}, {"level"}});
  if (!found) return tl::unexpected(found.error());
  const Columns columns(table, std::move(*found));
  std::vector<PaperKeyRow> rows;
  std::set<BlindCode> codes;
  for (const auto& row : table.rows) {
    auto read = read_key_row(columns, row);
    if (!read) return tl::unexpected(read.error());
    if (!codes.insert(read->code).second)
      return fail(ErrorKind::duplicate, "code", read->code.text(), "each code once in the key", columns.place(row, 0));
    rows.push_back(std::move(*read));
  }
  if (rows.empty()) return fail(ErrorKind::missing, "rows", {}, "a row for each code", table.file);
  return rows;
}

Result<std::vector<PaperMark>> read_mark_rows(const CsvTable& table) {
  auto found = find_columns(
      table, {{"code"}, {"assessor", "taster"}, {"attribute"}, {"value", "score"}, {"first cup", "first"}});
  if (!found) return tl::unexpected(found.error());
  const Columns columns(table, std::move(*found));
  std::vector<PaperMark> rows;
  for (const auto& row : table.rows) {
    auto read = read_mark_row(columns, row);
    if (!read) return tl::unexpected(read.error());
    rows.push_back(std::move(*read));
  }
  if (rows.empty()) return fail(ErrorKind::missing, "rows", {}, "a row for each mark", table.file);
  return rows;
}

}  // namespace likeleaf::exchange
