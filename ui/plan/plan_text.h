#pragma once
// Numbers of a plan as they are shown and typed: one way for every field of the plan screen.
#include <QString>
#include <QStringList>
#include <cstdint>
#include <optional>

#include "core/base/line_text.h"
#include "core/base/result.h"
#include "core/base/style.h"
#include "core/domain/plan.h"

namespace likeleaf::ui {

/// "4 g", "45 s", "42 °C"; empty for nothing.
QString target_text(ConstantKind kind, const std::optional<std::int64_t>& value, const Style& style);
/// "±0.05 g"; empty for nothing.
QString tolerance_text(ConstantKind kind, const std::optional<std::int64_t>& value, const Style& style);
/// Empty text is nothing. Errors name the field, the value and what is allowed.
Result<std::optional<std::int64_t>> parse_target(ConstantKind kind, const QString& text, const Style& style,
                                                 const std::string& field);
Result<std::optional<std::int64_t>> parse_tolerance(ConstantKind kind, const QString& text, const Style& style,
                                                    const std::string& field);
/// One click of − or +, and where a number starts that was never set.
std::int64_t target_step(ConstantKind kind);
std::int64_t target_start(ConstantKind kind);
/// A value moved by clicks, never under zero.
std::optional<std::int64_t> stepped(ConstantKind kind, const std::optional<std::int64_t>& value, int way);

/// "±1", "×1.25".
QString margin_text(Scale scale, std::int64_t margin, const Style& style);
Result<std::int64_t> parse_margin(Scale scale, const QString& text, const std::string& field);
/// A whole number in a range.
Result<int> parse_count(const QString& text, int lowest, int highest, const std::string& field);
/// A whole number behind which its unit may stand: "40", "40 mg/l"; empty text is nothing.
Result<std::optional<std::int64_t>> parse_amount(const QString& text, const QString& unit, int decimals,
                                                 std::int64_t lowest, std::int64_t highest, const std::string& field,
                                                 const std::string& allowed);
/// "40 mg/l"; empty for nothing.
QString amount_text(const std::optional<std::int64_t>& value, const QString& unit, int decimals, int shown,
                    const Style& style);
/// Text as it was typed, cut of white space at both ends.
std::string plain(const QString& text);
/// Takes a line (or, with `lines`, several) of at most `most` characters into a text.
Result<void> take_text(std::string& into, const QString& text, std::size_t most, const std::string& field,
                       bool lines = false);

}  // namespace likeleaf::ui
