#pragma once
// The taster's screen: what the port gives and nothing else.
#include <QWidget>
#include <memory>
#include <optional>

#include "core/base/clock.h"
#include "core/base/style.h"
#include "core/session/taster_port.h"

class QStackedWidget;
class QTimer;

namespace likeleaf::ui {

class DayPage;
class GuessPage;
class PairPage;
class PausePage;
class TasteHead;

/// One assessor's flight: state of the day once a sitting, warm-up, then pair after pair with rests between. Where one
/// stands is read from the book, so a screen that is opened again goes on where it was left.
class TasteScreen final : public QWidget {
  Q_OBJECT
 public:
  TasteScreen(std::unique_ptr<TasterPort> port, const Clock& clock, const Style& style, QWidget* parent = nullptr);
  ~TasteScreen() override;
  /// Reads the flight again: a pair may have been voided and brewed again.
  void refresh();

 signals:
  void flight_done();   ///< every pair of every sitting is locked
  void leave_wanted();  ///< the taster is done for now

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  void show_head(const std::optional<BlindServing>& now);
  void show_rest();
  void show_done();
  void onward();
  void look(int index);
  void flight_changed();
  [[nodiscard]] std::int64_t rest_left() const;
  [[nodiscard]] std::optional<BlindServing> next() const;
  [[nodiscard]] std::optional<BlindServing> last_locked() const;
  [[nodiscard]] std::vector<BlindServing> locked_of(int sitting) const;
  [[nodiscard]] QStringList locked_names(int sitting) const;
  [[nodiscard]] int sitting_now() const;

  std::unique_ptr<TasterPort> port_;
  const Clock& clock_;
  Subscription kept_, flight_;
  TasteHead* head_;
  QStackedWidget* pages_;
  DayPage* day_;
  PairPage* pair_;
  GuessPage* guess_;
  PausePage* pause_;
  QTimer* tick_;
  std::optional<IdOf<Serving>> rested_after_;  ///< the pair after which the rest was ended by the taster
  bool told_done_ = false;
};

}  // namespace likeleaf::ui
