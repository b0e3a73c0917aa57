#pragma once
#include <QWidget>
#include <array>

#include "core/base/style.h"
#include "core/session/session.h"

class QComboBox;
class QLabel;
class QLayout;

namespace likeleaf::ui {

class BlankLine;

/// What is weighed and measured of one brew, typed; and a temperature reading.
class NotePanel final : public QWidget {
  Q_OBJECT
 public:
  NotePanel(Session& session, const Style& style, QWidget* parent = nullptr);
  /// `keyed`: what the plan asks of this brew may stand in the empty blanks.
  void refresh(int sitting, bool keyed);
  void show_brew(IdOf<Brew> brew);
  /// The keyboard goes to the reading.
  void write_reading();

 private:
  enum Field { leaf, water, pour, steep, strength, acidity, chilled, remark, fields };
  [[nodiscard]] std::shared_ptr<const Brew> brew() const;
  [[nodiscard]] std::size_t infusion() const;
  QLayout* build_first();
  QLayout* build_second();
  BlankLine* blank(Field field, const QString& spoken, const char* object);
  [[nodiscard]] QString noted(const Brew& brew, Field field) const;
  /// The brew's facts with one of them read anew from what was typed.
  [[nodiscard]] Result<PutBrewFacts> facts_with(const Brew& brew, Field field, const QString& typed) const;
  void show_values();
  void put(Field field, const QString& typed);
  void put_reading(const QString& typed);
  Session& session_;
  const Style& style_;
  bool keyed_ = false;
  QComboBox* brew_ = nullptr;
  QComboBox* infusion_ = nullptr;
  QComboBox* place_ = nullptr;
  std::array<BlankLine*, fields> blanks_{};
  BlankLine* reading_ = nullptr;
  QLabel* last_ = nullptr;
  QLabel* refused_ = nullptr;
};

}  // namespace likeleaf::ui
