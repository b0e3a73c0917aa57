#pragma once
// The prints on paper: painted as vectors, text that stays text. Needs a QApplication (offscreen is enough).
#include <QByteArray>
#include <variant>

#include "core/report/document.h"
#include "core/report/prints.h"
#include "core/report/taster_prints.h"
#include "ui/render/pages.h"

class QPrinter;

namespace likeleaf::ui {

using Print =
    std::variant<report::CupLabels, report::TrayMap, report::ScoreSheets, report::PortionSlips, report::Document>;

/// The whole PDF; but for a document's it does not tell when it was made: equal prints are equal bytes.
QByteArray print_pdf(const Print& print, Paper paper);
/// The same pages as pictures for the screen, at `scale` times 96 dpi; only the first `most`.
PagePictures print_images(const Print& print, Paper paper, double scale, int most);
/// False when the printer could not be written to.
bool print_to(QPrinter& printer, const Print& print, Paper paper);

}  // namespace likeleaf::ui
