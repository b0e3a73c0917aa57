#include "ui/widgets/printer_prompt.h"

#include <QApplication>
#include <QPageSize>
#include <QPrintDialog>
#include <QPrinter>

namespace likeleaf::ui {

PrinterPrompt printer_dialog_prompt() {
  return [](Paper paper) -> std::shared_ptr<QPrinter> {
    auto printer = std::make_shared<QPrinter>(QPrinter::HighResolution);
    printer->setPageSize(QPageSize(paper == Paper::a4 ? QPageSize::A4 : QPageSize::Letter));
    QPrintDialog dialog(printer.get(), QApplication::activeWindow());
    dialog.setWindowTitle(QStringLiteral("Print"));
    return dialog.exec() == QDialog::Accepted ? printer : nullptr;
  };
}

}  // namespace likeleaf::ui
