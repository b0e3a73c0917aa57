#include "ui/plan/plan_text.h"

#include <algorithm>

#include "core/base/number_text.h"
#include "core/wording/amount_text.h"

namespace likeleaf::ui {
namespace {

bool is_mass(ConstantKind kind) {
  return kind == ConstantKind::leaf_dose || kind == ConstantKind::water_mass;
}
bool is_time(ConstantKind kind) {
  return kind == ConstantKind::steep_time || kind == ConstantKind::longest_hold;
}

QString without(QString text, const QStringList& signs) {
  text = text.trimmed();
  for (const auto& sign : signs)
    if (text.startsWith(sign)) text = text.mid(sign.size()).trimmed();
  return text;
}

/// A difference of temperatures: in the reader's unit, kept in thousandths of a degree Celsius.
Result<std::int64_t> parse_step(QString text, const Style& style, const std::string& field) {
  const std::string typed = text.toStdString();
  bool fahrenheit = style.temperature == TemperatureUnit::fahrenheit;
  for (const auto& unit : {QStringLiteral("C"), QStringLiteral("F")}) {
    if (!text.endsWith(unit, Qt::CaseInsensitive)) continue;
    fahrenheit = unit == QStringLiteral("F");
    text.chop(1);
    text = text.trimmed();
    if (text.endsWith(QStringLiteral("°"))) text.chop(1);
    break;
  }
  const auto read =
      parse_decimal(text.trimmed().toStdString(), 3, 0, 50'000, field, fahrenheit ? "0 to 50 °F" : "0 to 50 °C");
  if (!read) {
    Error error = read.error();
    error.value = shown_value(typed);
    return tl::unexpected<Error>(error);
  }
  return fahrenheit ? (*read * 5 + 4) / 9 : *read;
}

}  // namespace

QString target_text(ConstantKind kind, const std::optional<std::int64_t>& value, const Style& style) {
  return value ? QString::fromStdString(wording::amount_text(kind, *value, style)) : QString();
}

QString tolerance_text(ConstantKind kind, const std::optional<std::int64_t>& value, const Style& style) {
  return value ? QString::fromStdString(wording::tolerance_text(kind, *value, style)) : QString();
}

Result<std::optional<std::int64_t>> parse_target(ConstantKind kind, const QString& text, const Style& style,
                                                 const std::string& field) {
  const std::string typed = text.trimmed().toStdString();
  if (typed.empty()) return std::optional<std::int64_t>();
  if (is_mass(kind)) return parse_mass(typed, field).map([](Mass m) { return std::optional(m.count()); });
  if (is_time(kind)) return parse_duration(typed, field).map([](Duration d) { return std::optional(d.count()); });
  return parse_temperature(typed, style, field).map([](Temperature t) { return std::optional(t.milli_celsius()); });
}

Result<std::optional<std::int64_t>> parse_tolerance(ConstantKind kind, const QString& text, const Style& style,
                                                    const std::string& field) {
  const QString typed = without(text, {QStringLiteral("±"), QStringLiteral("+/-"), QStringLiteral("+-")});
  if (typed.isEmpty()) return std::optional<std::int64_t>();
  if (is_mass(kind) || is_time(kind)) return parse_target(kind, typed, style, field);
  return parse_step(typed, style, field).map([](std::int64_t s) { return std::optional(s); });
}

std::int64_t target_step(ConstantKind kind) {
  switch (kind) {
    case ConstantKind::leaf_dose:
      return 500;
    case ConstantKind::water_mass:
      return 10'000;
    case ConstantKind::steep_time:
      return 5'000;
    case ConstantKind::longest_hold:
      return 60'000;
    default:
      return 1'000;
  }
}

std::int64_t target_start(ConstantKind kind) {
  switch (kind) {
    case ConstantKind::leaf_dose:
      return 3'000;
    case ConstantKind::water_mass:
      return 150'000;
    case ConstantKind::steep_time:
      return 60'000;
    case ConstantKind::longest_hold:
      return 600'000;
    case ConstantKind::tasting_temperature:
      return 42'000;
    default:
      return 80'000;
  }
}

std::optional<std::int64_t> stepped(ConstantKind kind, const std::optional<std::int64_t>& value, int way) {
  if (!value) return target_start(kind);
  return std::max<std::int64_t>(0, *value + way * target_step(kind));
}

QString margin_text(Scale scale, std::int64_t margin, const Style& style) {
  if (scale == Scale::seconds) return QStringLiteral("×") + QString::fromStdString(decimal_text(margin, 3, 2, style));
  return QStringLiteral("±") + QString::fromStdString(decimal_text(margin * 5, 1, margin % 2 == 0 ? 0 : 1, style));
}

Result<std::int64_t> parse_margin(Scale scale, const QString& text, const std::string& field) {
  const std::string typed =
      without(text, {QStringLiteral("±"), QStringLiteral("×"), QStringLiteral("x"), QStringLiteral("+/-")})
          .toStdString();
  if (scale == Scale::seconds)
    return parse_decimal(typed, 3, 1'001, 10'000, field, "a ratio above ×1.00, at most ×10.00");
  constexpr const char* allowed = "half a point or more, in half points";
  const auto tenths = parse_decimal(typed, 1, 5, scale == Scale::register_bands ? 200 : 100, field, allowed);
  if (!tenths) return tenths;
  if (*tenths % 5 != 0) return fail(ErrorKind::bad_value, field, shown_value(typed), allowed);
  return *tenths / 5;
}

Result<int> parse_count(const QString& text, int lowest, int highest, const std::string& field) {
  return parse_decimal(text.trimmed().toStdString(), 0, lowest, highest, field).map([](std::int64_t n) {
    return static_cast<int>(n);
  });
}

Result<std::optional<std::int64_t>> parse_amount(const QString& text, const QString& unit, int decimals,
                                                 std::int64_t lowest, std::int64_t highest, const std::string& field,
                                                 const std::string& allowed) {
  QString typed = text.trimmed();
  if (typed.isEmpty()) return std::optional<std::int64_t>();
  if (!unit.isEmpty() && typed.endsWith(unit, Qt::CaseInsensitive)) typed = typed.chopped(unit.size()).trimmed();
  return parse_decimal(typed.toStdString(), decimals, lowest, highest, field, allowed).map([](std::int64_t n) {
    return std::optional(n);
  });
}

QString amount_text(const std::optional<std::int64_t>& value, const QString& unit, int decimals, int shown,
                    const Style& style) {
  if (!value) return {};
  const QString number = QString::fromStdString(decimal_text(*value, decimals, shown, style));
  return unit.isEmpty() ? number : number + QString::fromUtf8(no_break_space) + unit;
}

Result<void> take_text(std::string& into, const QString& text, std::size_t most, const std::string& field, bool lines) {
  // A pasted line end may also be one of Unicode's own.
  QString typed = text;
  typed.replace(QChar::ParagraphSeparator, QLatin1Char('\n')).replace(QChar::LineSeparator, QLatin1Char('\n'));
  auto read = lines ? parse_lines(typed.toStdString(), most, field) : parse_line(typed.toStdString(), most, field);
  if (!read) return tl::unexpected<Error>(read.error());
  into = std::move(*read);
  return {};
}

std::string plain(const QString& text) {
  return text.trimmed().toStdString();
}

}  // namespace likeleaf::ui
