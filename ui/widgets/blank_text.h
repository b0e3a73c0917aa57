#pragma once
// A blank for a sentence or a few: as wide as its place, as tall as what is written, underlined like a BlankLine.
#include <QString>
#include <QWidget>

class QLabel;
class QTextEdit;

namespace likeleaf::ui {

/// Speaks as BlankLine does: it never judges, the owner hears typed() and sets the value that stands. Enter is done,
/// Shift+Enter begins a new line, Tab goes on, Escape takes back what was not done.
class BlankText final : public QWidget {
  Q_OBJECT
 public:
  explicit BlankText(const QString& name, const QString& placeholder = {}, QWidget* parent = nullptr);
  void set_value(const QString& value, bool even_while_writing = false);
  [[nodiscard]] QString value() const;
  /// Why the last entry was refused; empty hides it.
  void set_message(const QString& message);
  [[nodiscard]] QString message() const { return message_text_; }
  /// What is to be said of the value that stands; gives way to a refusal.
  void set_note(const QString& note);
  /// Still needed: the line under it is dashed.
  void set_wanted(bool wanted);
  /// Where there is no room under the blank, as of a BlankLine.
  void say_in(QLabel* place) { place_ = place; }
  void set_read_only(bool read_only);
  /// Takes what is being written, as leaving the blank would.
  void finish();
  [[nodiscard]] QTextEdit* page() const { return page_; }

 signals:
  void typed(const QString& text);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void paintEvent(QPaintEvent* event) override;

 private:
  void fit();
  void show_words();

  QTextEdit* page_;
  QLabel* words_;
  QLabel* place_ = nullptr;
  QString standing_, message_text_, note_, said_;
  bool finishing_ = false, wanted_ = false;
};

}  // namespace likeleaf::ui
