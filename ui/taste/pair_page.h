#pragma once
// One pair on the table: cup, rinse, cup, comparing sip.
#include <QWidget>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/style.h"
#include "core/session/taster_port.h"

class QGridLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QTimer;
class QVBoxLayout;

namespace likeleaf::ui {

class AttributeRow;
class CupMark;
class ScoreScale;
class TapTimer;
class WordPicker;

enum class TasteStep { first_cup, rinse, second_cup, both_cups, compare };

class PairPage final : public QWidget {
  Q_OBJECT
 public:
  PairPage(TasterPort& port, const Clock& clock, const Style& style, QWidget* parent);
  /// Another pair, or the same one again: then the step of now stays.
  void show_pair(const BlindServing& serving);
  void refresh();
  [[nodiscard]] TasteStep step() const { return step_; }
  void go(TasteStep step);

 signals:
  void locked();

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  struct Band {
    std::string field;
    ScoreScale *left, *right;
  };
  struct Cup {
    CupMark* mark;
    QPushButton* fault;
    QPushButton* sipped;
    TapTimer* timer;
    WordPicker* words;
    QLabel* finish;
  };

  QWidget* make_head();
  QWidget* make_cards();
  QWidget* make_foot();
  void wire(ScoreScale* scale, Side side, const std::string& field);
  void put(Side side, const std::string& field, std::optional<Mark> mark);
  void answer(AttributeRow* row, std::optional<Direct> answer);
  void unscored(NoScore answer);
  void take(const Result<std::uint64_t>& result);
  void say(const QString& sentence);
  void forward();
  void back();
  void lock();
  void set_current(Side side, const std::string& field);
  void show_steps();
  void show_todo();
  void order_tabs();
  void focus_first();
  [[nodiscard]] Cup& cup(Side side) { return side == Side::left ? left_ : right_; }
  [[nodiscard]] Side first() const;
  [[nodiscard]] Side now() const;
  [[nodiscard]] bool open(Side side) const;
  [[nodiscard]] QString code(Side side) const;
  [[nodiscard]] std::vector<TasteStep> steps() const;
  [[nodiscard]] QString step_name(TasteStep step) const;
  [[nodiscard]] TasteStep resumed() const;

  TasterPort& port_;
  const Clock& clock_;
  Style style_;
  BlindServing serving_{{}, {}, {}, 1, 1, 1, *BlindCode::from(100), *BlindCode::from(101), Side::left, {}};
  bool shown_ = false;
  Sheet sheet_;
  TasteStep step_ = TasteStep::first_cup;
  Side side_ = Side::left;  ///< of the field in hand
  std::string field_;       ///< the field in hand
  bool reviewed_ = false;   ///< blanks and contradictions of this pair were named once
  Moment rinse_from_;
  std::vector<AttributeRow*> rows_;
  std::vector<Band> bands_;
  std::string finish_, aroma_;  ///< attribute ids; empty when the plan does not ask
  Cup left_{}, right_{};
  QLabel *who_, *place_, *message_, *todo_, *keys_, *finish_hint_ = nullptr;
  QWidget *dashes_, *strip_;
  std::vector<QPushButton*> step_buttons_;
  QLineEdit* note_;
  std::vector<QPushButton*> unscored_;
  QPushButton *undo_, *onward_;
  QTimer* tick_;
};

}  // namespace likeleaf::ui
