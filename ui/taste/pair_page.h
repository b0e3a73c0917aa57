#pragma once
// One pair on the table: cup, rinse, cup, comparing sip.
#include <QWidget>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/style.h"
#include "core/session/taster_port.h"
#include "ui/taste/keeping.h"
#include "ui/taste/lock_words.h"

class QFrame;
class QLabel;
class QTimer;
class QVBoxLayout;

namespace likeleaf::ui {

class AromaCard;
class AttributeRow;
class CupsStrip;
class FinishCard;
class PairFoot;
class ScoreScale;
class WordsCard;

enum class TasteStep { first_cup, rinse, second_cup, both_cups, compare };

/// Shows the sheet of one serving as the book has it and sends every entry to the port at once. Nothing of the sheet is
/// held here but what is still on its way to the disk.
class PairPage final : public QWidget {
  Q_OBJECT
 public:
  PairPage(TasterPort& port, const Clock& clock, const Style& style, QWidget* parent);
  /// Another pair, or the same one again: then the step of now stays.
  void show_pair(const BlindServing& serving);
  /// A locked sheet, to look at and not to change.
  void show_locked(const BlindServing& serving);
  void refresh();
  void hear(const Kept& news);
  [[nodiscard]] TasteStep step() const { return step_; }
  [[nodiscard]] const BlindServing& serving() const { return serving_; }
  [[nodiscard]] bool shows_locked() const { return read_only_; }
  void go(TasteStep step);

 signals:
  void locked();
  void looked();  ///< done with looking at a locked sheet

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void make_rows(QVBoxLayout* down);
  QWidget* make_cards();
  QWidget* make_message();
  void wire(ScoreScale* scale, Side side, const std::string& field);
  void wire_cards();

  void show_cup(Side side);
  void show_rows();
  void show_foot();
  void show_todo();
  void show_keys();
  void order_tabs();
  void focus_first();

  void put(Side side, const std::string& field, std::optional<Mark> mark);
  void answer(AttributeRow* row, std::optional<Direct> answer);
  void unscored(NoScore answer);
  void undo();
  void forward();
  void back();
  void lock();
  /// What was sent waits for the disk under `what`; a refusal is said by `refuse`.
  bool take(const std::string& what, const Result<std::uint64_t>& result);
  /// One sentence at the field of `what`.
  void refuse(const std::string& what, const QString& sentence);
  void clear_refusals();
  void say(const QString& sentence, const QString& title = {});

  /// The field in hand. `marking`: a score is being given, not a direct answer.
  void set_current(Side side, const std::string& field, bool marking);
  [[nodiscard]] Side first() const;
  [[nodiscard]] Side now() const;
  [[nodiscard]] bool open(Side side) const;
  [[nodiscard]] bool veiled(Side side) const;
  [[nodiscard]] Side tapped() const;
  [[nodiscard]] bool taps() const;
  [[nodiscard]] QString code(Side side) const;
  [[nodiscard]] std::vector<TasteStep> steps() const;
  [[nodiscard]] int step_index() const;
  [[nodiscard]] QString step_name(TasteStep step) const;
  [[nodiscard]] TasteStep resumed() const;

  TasterPort& port_;
  const Clock& clock_;
  Style style_;
  BlindServing serving_{{}, {}, {}, 1, 1, 1, *BlindCode::from(100), *BlindCode::from(101), Side::left, {}};
  bool shown_ = false, read_only_ = false;
  Sheet sheet_;
  TasteStep step_ = TasteStep::first_cup;
  Side side_ = Side::left;  ///< of the field in hand
  std::string field_;       ///< the field in hand
  bool marking_ = true, writing_words_ = false;
  LockWords lock_words_;
  Keeping keeping_;
  Moment rinse_from_;
  std::vector<AttributeRow*> rows_;
  std::string finish_, aroma_;  ///< attribute ids; empty when the plan does not ask
  CupsStrip* cups_;
  FinishCard* finish_card_ = nullptr;
  AromaCard* aroma_card_ = nullptr;
  WordsCard* words_card_ = nullptr;
  QFrame* message_box_ = nullptr;
  QLabel *message_title_ = nullptr, *message_ = nullptr;
  PairFoot* foot_;
  QTimer* tick_;
};

}  // namespace likeleaf::ui
