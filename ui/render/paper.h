#pragma once
#include <QLocale>
#include <QString>

namespace likeleaf::ui {

enum class Paper { a4, letter };

/// "A4", "US Letter".
QString paper_name(Paper paper);
/// The paper that is usual where the locale is at home.
Paper usual_paper(const QLocale& locale);
/// The paper chosen before on this bench; until then the usual one.
Paper chosen_paper();
/// Keeps the choice in the settings of this user.
void choose_paper(Paper paper);

}  // namespace likeleaf::ui
