#pragma once
// A report document painted as PDF: vector charts, text that stays text. Needs a QApplication (offscreen is enough).
#include <QByteArray>

#include "core/report/document.h"

namespace likeleaf::ui {

enum class Paper { a4, letter };
/// The whole PDF in memory; the caller writes it with exchange/atomic_file. Never fails: what does not fit moves on.
QByteArray pdf_bytes(const report::Document& document, Paper paper);

}  // namespace likeleaf::ui
