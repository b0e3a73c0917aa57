#pragma once
// One box of a paper sheet.
#include <QLineEdit>
#include <functional>

namespace likeleaf::ui {

/// Shows what the book holds and hands on what was typed when it is left (Enter, Tab, arrows, mouse, hiding). What is
/// refused goes: the old value comes back and the sentence is told. Escape gives up what is being typed.
class PaperCell final : public QLineEdit {
  Q_OBJECT
 public:
  /// `take` puts the text into the book: empty when it was taken, else the sentence why not.
  PaperCell(std::function<QString(const QString&)> take, QWidget* parent);
  /// What the book holds; what is being typed stays.
  void set_kept(const QString& text);
  [[nodiscard]] const QString& kept() const { return kept_; }
  /// Hands on what is being typed; false when it was refused.
  bool commit();

 signals:
  void focused();
  void refused(const QString& sentence);
  void accepted();
  void sideways(int step);  ///< ← or → at the end of the text
  void undo_wanted();
  void pressed();  ///< by the mouse

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  bool focusNextPrevChild(bool next) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void hideEvent(QHideEvent* event) override;

 private:
  std::function<QString(const QString&)> take_;
  QString kept_;
  bool busy_ = false;
};

}  // namespace likeleaf::ui
