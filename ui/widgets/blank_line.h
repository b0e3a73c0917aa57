#pragma once
// An underlined blank to write in, with room under it for one sentence when what was written cannot be taken.
#include <QString>
#include <QWidget>

class QLabel;
class QLineEdit;

namespace likeleaf::ui {

/// Holds one typed value. It never judges: the owner hears typed(), and either sets the new value or says in a message
/// why not; the owner then calls set_value with the value that stands.
class BlankLine final : public QWidget {
  Q_OBJECT
 public:
  /// `name` is what a screen reader says; `placeholder` stands in soft ink while the blank is empty.
  explicit BlankLine(const QString& name, const QString& placeholder = {}, QWidget* parent = nullptr);
  ~BlankLine() override;
  /// The value that stands; does not signal. While the person is writing in it, what they write is left alone unless
  /// `even_while_writing`.
  void set_value(const QString& value, bool even_while_writing = false);
  [[nodiscard]] QString value() const;
  /// A sentence under the line in the caution colour; empty hides it. The screen reader hears it as the description.
  void set_message(const QString& message);
  [[nodiscard]] QString message() const;
  /// Where there is no room under the line: the sentence stands in `place`. One place may serve several lines; it shows
  /// what was said last.
  void say_in(QLabel* place) { place_ = place; }
  /// What is to be said of the value that stands; gives way to a refusal.
  void set_note(const QString& note);
  /// Still needed: the line under it is dashed.
  void set_wanted(bool wanted);
  /// One of many on a page: its line is a hairline until the blank has the focus.
  void set_quiet(bool quiet);
  /// Takes what is being written, as leaving the line would.
  void finish();
  void set_read_only(bool read_only);
  /// For object names, alignment, validators: the line itself.
  [[nodiscard]] QLineEdit* line() const { return line_; }

 signals:
  /// Enter, or leaving the line, with text that differs from the value that stands.
  void typed(const QString& text);
  /// Every key, for lists that follow the typing.
  void typing(const QString& text);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void restyle();
  void show_words();

  QLineEdit* line_;
  QLabel* message_;
  QLabel* place_ = nullptr;
  QString standing_, message_text_, note_, said_;
  bool finishing_ = false, wanted_ = false, quiet_ = false;
};

}  // namespace likeleaf::ui
