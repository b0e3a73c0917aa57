#pragma once
// Small pieces that the panels of the preparer's screen share.
#include <QFont>
#include <QString>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/domain/trial.h"
#include "ui/widgets/qt_text.h"

class QColor;
class QComboBox;
class QFrame;
class QLabel;
class QPushButton;
class QWidget;

namespace likeleaf::ui::brewing {

QLabel* label(const QString& words, const QFont& font, const QColor& color, QWidget* parent);
void dress_as_label(QLabel* label, const QFont& font, const QColor& color);
/// A button in outline; `filled` for the one that matters most. Enter presses it as well as Space.
QPushButton* button(const QString& words, const char* object, QWidget* parent, bool filled = false);
QComboBox* choice(const QString& name, const char* object, QWidget* parent);
/// A sheet with a hairline around it.
QFrame* card(QWidget* parent);
void dress_as_card(QFrame* frame);
/// The error as a sentence for people.
QString said(const Error& error);
/// Fills a choice with names and ids and keeps what was chosen where it is still there; does not signal.
struct Entry {
  QString name, id;
  bool operator==(const Entry&) const = default;
};
void fill(QComboBox* choice, const std::vector<Entry>& entries);
/// The pairs of a sitting to choose from, and the chosen one.
void fill_pairs(QComboBox* choice, const Trial& trial, int sitting);
std::optional<IdOf<Pair>> chosen_pair(const QComboBox* choice);

}  // namespace likeleaf::ui::brewing
