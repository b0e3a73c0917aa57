#pragma once
// Under the six rows: the finish, where the aroma sits, words and note.
#include <QFrame>
#include <QHBoxLayout>
#include <array>
#include <string>
#include <vector>

#include "core/session/taster_port.h"
#include "ui/widgets/keep.h"

class QLabel;
class QLineEdit;

namespace likeleaf::ui {

class ScoreScale;
class TapTimer;
class WordPicker;

/// Two timers, or what they gave once the cups are compared.
class FinishCard final : public QFrame {
  Q_OBJECT
 public:
  FinishCard(const Clock& clock, QWidget* parent);
  [[nodiscard]] TapTimer* timer(Side side) const { return timers_[side == Side::left ? 0 : 1]; }
  struct Look {
    QString code;
    std::optional<Mark> mark;
    Keep keep = Keep::kept;
    bool timed = false;  ///< the timer is there to be tapped
  };
  /// `both`: two timers stand together, each with its code. `given`: what they gave, beside any that still runs.
  void set_look(const Look& left, const Look& right, bool both, bool given);
  void set_hint(const QString& hint);

 private:
  std::array<TapTimer*, 2> timers_{};
  std::array<QLabel*, 2> given_{};
  QLabel* hint_;
};

/// Top, middle and base notes of both cups.
class AromaCard final : public QFrame {
  Q_OBJECT
 public:
  struct Band {
    std::string field;
    QString name;
    ScoreScale *left, *right;
  };
  AromaCard(const std::string& attribute, char decimal_mark, QWidget* parent);
  [[nodiscard]] const std::vector<Band>& bands() const { return bands_; }
  void set_message(const QString& message);

 private:
  std::vector<Band> bands_;
  QLabel* message_;
};

/// Words a cup, and one note on the pair.
class WordsCard final : public QFrame {
  Q_OBJECT
 public:
  WordsCard(const std::vector<AromaWord>& lexicon, QWidget* parent);
  [[nodiscard]] WordPicker* words(Side side) const { return words_[side == Side::left ? 0 : 1]; }
  [[nodiscard]] QLineEdit* note() const { return note_; }
  void set_note(const std::string& note, Keep keep, bool open);
  void set_message(const QString& message);

 signals:
  void note_wanted(const std::string& note);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void keep_note();

  std::array<WordPicker*, 2> words_{};
  QLineEdit* note_;
  QLabel* message_;
  std::string kept_note_;
};

}  // namespace likeleaf::ui
