#pragma once
// What can be done to a locked sheet: a mark amended, the sheet left out. Both with who and why, and for ever.
#include <QWidget>
#include <vector>

#include "core/base/result.h"
#include "ui/findings/sheet_lines.h"

class QComboBox;
class QLabel;
class QStackedWidget;

namespace likeleaf::ui {

class BlankLine;

/// Two blanks that every record needs.
class WhoAndWhy final : public QWidget {
  Q_OBJECT
 public:
  /// Object names are `stem`_who and `stem`_why.
  WhoAndWhy(const QString& stem, const QString& why_hint, QWidget* parent);
  [[nodiscard]] std::string who() const;
  [[nodiscard]] std::string why() const;
  /// Says at the blank what is missing; true when nothing is.
  bool complete();
  /// Says the refusal at the blank that it is about; false when it is about neither.
  bool refuse(const Error& error);
  /// Says the error under why it is done.
  void say(const Error& error);

 private:
  BlankLine* who_;
  BlankLine* why_;
};

class AmendForm final : public QWidget {
  Q_OBJECT
 public:
  /// Begins at the mark of that number in mark_lines().
  AmendForm(const Trial& trial, IdOf<Serving> serving, const Style& style, int at, QWidget* parent);
  /// The record as it is written now.
  [[nodiscard]] Amendment amendment() const;
  bool complete();
  void refuse(const Error& error);
  /// The new value is the one that stands.
  void say_same();

 signals:
  void wanted();
  void left();

 private:
  void show_line(int index);
  [[nodiscard]] const MarkLine& line() const;

  std::vector<MarkLine> lines_;
  QComboBox* which_;
  QLabel* now_;
  QStackedWidget* value_;
  BlankLine* mark_;
  QComboBox* direct_;
  WhoAndWhy* reason_;
};

class ExcludeForm final : public QWidget {
  Q_OBJECT
 public:
  explicit ExcludeForm(bool unmasked, QWidget* parent);
  [[nodiscard]] std::string who() const;
  [[nodiscard]] std::string why() const;
  bool complete();
  void refuse(const Error& error);

 signals:
  void wanted();
  void left();

 private:
  WhoAndWhy* reason_;
  QLabel* said_;
};

}  // namespace likeleaf::ui
