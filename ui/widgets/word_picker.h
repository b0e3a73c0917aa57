#pragma once
// Aroma words of one cup, by typing.
#include <QWidget>
#include <vector>

#include "core/domain/attribute.h"
#include "core/domain/sheet.h"

class QLabel;
class QLineEdit;
class QListWidget;

namespace likeleaf::ui {

/// Nothing is offered before three letters, so that the list puts no word into anyone's mouth. Enter adds the chosen
/// offer, or what was typed as a word of one's own; a 1, 2 or 3 behind it is its strength. Backspace in the empty line
/// or a click on a word takes it away.
class WordPicker final : public QWidget {
  Q_OBJECT
 public:
  WordPicker(std::vector<AromaWord> lexicon, QWidget* parent = nullptr);
  void set_name(const QString& name);
  void set_words(const std::vector<WordMark>& words);
  void set_veiled(bool veiled);
  [[nodiscard]] QLineEdit* line() const { return line_; }
  [[nodiscard]] QListWidget* offers() const { return offers_; }

 signals:
  void words_wanted(const std::vector<likeleaf::WordMark>& words);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void offer();
  void add(QString typed);
  void show_words();
  [[nodiscard]] QString shown(const WordMark& word) const;

  std::vector<AromaWord> lexicon_;
  std::vector<WordMark> words_;
  bool veiled_ = false;
  QLabel* chosen_;
  QLineEdit* line_;
  QListWidget* offers_;
};

}  // namespace likeleaf::ui
