#pragma once
// The two cups as they stand on the table, the steps between them, and what can be wrong with a cup.
#include <QStringList>
#include <QWidget>
#include <array>

#include "core/domain/score.h"
#include "ui/widgets/keep.h"

class QLabel;
class QLineEdit;
class QPushButton;

namespace likeleaf::ui {

class CupMark;

class CupsStrip final : public QWidget {
  Q_OBJECT
 public:
  /// How one cup is shown.
  struct Look {
    QString code;
    bool in_hand = false;
    bool asks_fault = false;  ///< "fault in this cup" can be pressed
    bool asks_first = false;  ///< "I sipped this one first" can be pressed
    bool fault = false;
    QString fault_note;
    Keep keep = Keep::kept;
  };
  explicit CupsStrip(QWidget* parent);
  void set_cup(Side side, const Look& look);
  void set_steps(const QStringList& names, int now);
  /// Why a note on a fault was not taken, under it.
  void set_fault_message(Side side, const QString& message);
  void begin_fault_note(Side side);
  [[nodiscard]] QPushButton* fault(Side side) const { return parts(side).fault; }
  [[nodiscard]] QLineEdit* fault_note(Side side) const { return parts(side).note; }
  [[nodiscard]] QPushButton* sipped(Side side) const { return parts(side).sipped; }

 signals:
  void fault_wanted(likeleaf::Side side, bool fault, const QString& note);
  void sipped_first_wanted(likeleaf::Side side);
  void step_wanted(int step);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  struct Parts {
    CupMark* mark = nullptr;
    QPushButton *fault = nullptr, *sipped = nullptr;
    QLineEdit* note = nullptr;
    QLabel* message = nullptr;
    Look look;
  };
  QWidget* make_aside(Side side);
  [[nodiscard]] const Parts& parts(Side side) const { return parts_[side == Side::left ? 0 : 1]; }
  [[nodiscard]] Parts& parts(Side side) { return parts_[side == Side::left ? 0 : 1]; }
  void keep_note(Side side);

  std::array<Parts, 2> parts_;
  QWidget* steps_;
  std::vector<QPushButton*> buttons_;
};

}  // namespace likeleaf::ui
