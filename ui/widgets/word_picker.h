#pragma once
// Aroma words of one cup, by typing.
#include <QListWidget>
#include <QPointer>
#include <QWidget>
#include <vector>

#include "core/domain/attribute.h"
#include "core/domain/sheet.h"
#include "ui/widgets/keep.h"

class QLabel;
class QLineEdit;

namespace likeleaf::ui {

/// Nothing is offered before three letters, so that the list puts no word into anyone's mouth. Enter adds the chosen
/// offer, or what was typed as a word of one's own; Tab takes the first offer; a 1, 2 or 3 behind it is its strength.
/// Backspace in the empty line or a click on a word takes it away.
class WordPicker final : public QWidget {
  Q_OBJECT
 public:
  explicit WordPicker(std::vector<AromaWord> lexicon, QWidget* parent = nullptr);
  ~WordPicker() override;
  void set_name(const QString& name);
  void set_words(const std::vector<WordMark>& words, Keep keep = Keep::kept);
  /// Nothing can be added or taken away: the other cup is in hand, or the sheet is locked.
  void set_open(bool open);
  /// Why a word was not taken, under the line.
  void set_message(const QString& message);
  void set_veiled(bool veiled);
  [[nodiscard]] QLineEdit* line() const { return line_; }
  [[nodiscard]] QListWidget* offers() const { return offers_; }

 signals:
  void words_wanted(const std::vector<likeleaf::WordMark>& words);
  void focused();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void offer();
  void place_offers();
  void take_away(std::size_t at);
  void add(const QString& typed);
  void show_words();
  [[nodiscard]] QString shown(const WordMark& word) const;

  std::vector<AromaWord> lexicon_;
  std::vector<WordMark> words_;
  bool veiled_ = false, open_ = true;
  Keep keep_ = Keep::kept;
  QLabel *chosen_, *message_;
  QLineEdit* line_;
  QPointer<QListWidget> offers_;  ///< a child of the window while it is shown: it lies over the sheet
};

}  // namespace likeleaf::ui
