#pragma once
// Colours, type and the Fusion palette. Warm paper, one accent; levels have their two colours only after unmask.
#include <QColor>
#include <QFont>

class QApplication;

namespace likeleaf::ui {

struct Tokens {
  QColor paper, sheet, ink, soft_ink, line, band, action, on_action, caution;
  QColor level_a, level_b, level_a_text, level_b_text;
};

const Tokens& light_tokens();
const Tokens& dark_tokens();

enum class Weight { regular, medium, semi_bold, bold };
/// The bundled face at a size in pixels of a 100 % screen, with tabular figures where the face has them.
QFont face(double pixels, Weight weight = Weight::regular);

/// Loads the bundled fonts; without them text falls back to the system's face. Safe to call more than once.
void load_fonts();
/// Style, palette and font of the whole program; call before the first widget.
void apply_theme(QApplication& application, bool dark);
/// The tokens that apply_theme chose (light before any call).
const Tokens& tokens();

}  // namespace likeleaf::ui
