#include "ui/plan/plan_screen.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>
#include <algorithm>

#include "core/wording/errors.h"
#include "ui/plan/sections.h"
#include "ui/plan/verdict_panel.h"

namespace likeleaf::ui {
namespace {

/// A new sheet: two empty levels, the usual things to hold still without a value, every built-in attribute noted.
Plan empty_sheet(const Session& session) {
  Plan plan;
  plan.lever.levels.resize(2);
  plan.lever.levels.front().present_way = true;
  for (const auto kind :
       {ConstantKind::leaf_dose, ConstantKind::water_mass, ConstantKind::steep_time, ConstantKind::water,
        ConstantKind::vessel, ConstantKind::chill, ConstantKind::tasting_temperature, ConstantKind::eyes}) {
    Constant constant;
    constant.kind = kind;
    plan.constants.push_back(constant);
  }
  for (const auto& attribute : session.attributes())
    plan.attributes.push_back({attribute.id, false, attribute.margin, Expectation::none});
  return plan;
}

/// Always as tall as its rows: a scroll area that is asked before new rows are laid out would squeeze them.
class Sheet final : public QWidget {
 public:
  using QWidget::QWidget;

 protected:
  bool event(QEvent* event) override {
    const bool out = QWidget::event(event);
    if ((event->type() == QEvent::LayoutRequest || event->type() == QEvent::Resize || event->type() == QEvent::Show) &&
        layout())
      setMinimumHeight(std::max(layout()->totalHeightForWidth(width()), layout()->totalMinimumSize().height()));
    return out;
  }
};

}  // namespace

PlanScreen::PlanScreen(Session& session, const Style& style, QWidget* parent)
    : QWidget(parent), session_(session), editor_(session, style) {
  const Tokens& t = tokens();
  setObjectName(QStringLiteral("plan_screen"));
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(28, 14, 28, 14);
  note_ = words({}, face(15), t.caution, this);
  note_->setObjectName(QStringLiteral("plan.note"));
  note_->hide();
  down->addWidget(note_);
  empty_ = new QWidget(this);
  auto* start = new QVBoxLayout(empty_);
  start->addStretch(1);
  start->addWidget(words(QStringLiteral("One question, one thing that changes, everything else held."),
                         face(22, Weight::semi_bold), t.ink, empty_),
                   0, Qt::AlignHCenter);
  auto* begin_button = new QPushButton(QStringLiteral("&Begin a trial"), empty_);
  begin_button->setObjectName(QStringLiteral("begin"));
  begin_button->setMinimumSize(160, 44);
  connect(begin_button, &QPushButton::clicked, this, &PlanScreen::begin);
  start->addWidget(begin_button, 0, Qt::AlignHCenter);
  start->addStretch(2);
  down->addWidget(empty_, 1);

  scroll_ = new QScrollArea(this);
  scroll_->setObjectName(QStringLiteral("plan.sheet"));
  scroll_->setFrameShape(QFrame::NoFrame);
  scroll_->setWidgetResizable(true);
  scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll_->setFocusPolicy(Qt::NoFocus);
  auto* page = new Sheet;
  auto* columns = new QHBoxLayout(page);
  columns->setContentsMargins(0, 0, 12, 0);
  columns->setSpacing(30);
  const auto column = [&] {
    auto* c = new QVBoxLayout;
    c->setSpacing(4);
    columns->addLayout(c, 1);
    return c;
  };
  auto* left = column();
  auto* middle = column();
  const auto add = [&](PlanSection* section, QVBoxLayout* into) {
    sections_.push_back(section);
    into->addWidget(section);
  };
  add(new ChangesSection(editor_, page), left);
  add(new StaysSection(editor_, page), left);
  add(new LeafSection(editor_, page), left);
  add(new MatterSection(editor_, page), middle);
  add(new RuleSection(editor_, page), middle);
  add(new WhoSection(editor_, page), middle);
  add(new ServingSection(editor_, page), middle);
  left->addStretch(1);
  middle->addStretch(1);
  scroll_->setWidget(page);
  panel_ = new VerdictPanel(editor_, this);
  panel_->setFixedWidth(372);
  auto* across = new QHBoxLayout;
  across->setSpacing(18);
  across->addWidget(scroll_, 1);
  across->addWidget(panel_);
  down->addLayout(across, 1);
  changes_ = session_.on_change([this](const Notice& notice) {
    if (notice.part == Part::plan || notice.part == Part::seal || notice.part == Part::registers) refresh();
  });
  // A line of text would keep Ctrl+Z to itself; the plan's own undo goes first once the line is as it stands.
  qApp->installEventFilter(this);
  refresh();
}

PlanScreen::~PlanScreen() = default;

void PlanScreen::refresh() {
  const auto trial = session_.trial();
  empty_->setVisible(!trial);
  scroll_->setVisible(trial != nullptr);
  panel_->setVisible(trial != nullptr);
  if (!trial) return;
  bool again = false;
  for (auto* section : sections_) again = section->refresh(trial->draft) || again;
  panel_->refresh(*trial);
  if (again) order_tabs();
}

/// Rows that were made again would otherwise come last in the tab order.
void PlanScreen::order_tabs() {
  QWidget* before = nullptr;
  const auto next = [&](QWidget* w) {
    if (before) setTabOrder(before, w);
    before = w;
  };
  for (auto* section : sections_)
    for (auto* w : section->findChildren<QWidget*>())
      // The list of a choice is a window of its own. A line's frame hands the keyboard on to its line, so it goes with
      // it.
      if (((w->focusPolicy() & Qt::TabFocus) != 0 || w->focusProxy()) && w->window() == window()) next(w);
  if (auto* seal = panel_->findChild<QPushButton*>(QStringLiteral("seal"))) next(seal);
}

void PlanScreen::begin() {
  const auto made = session_.new_trial(empty_sheet(session_));
  note_->setText(made ? QString() : qt(wording::sentence(made.error())));
  note_->setVisible(!made);
  if (!made) return;
  if (auto* question = findChild<QLineEdit*>(QStringLiteral("question"))) question->setFocus(Qt::OtherFocusReason);
}

void PlanScreen::undo(bool again) {
  const Scope scope{Scope::Kind::plan, {}};
  if (again ? !session_.can_redo(scope) : !session_.can_undo(scope)) return;
  const auto done = again ? session_.redo(scope) : session_.undo(scope);
  note_->setText(done ? QString() : qt(wording::sentence(done.error())));
  note_->setVisible(!done);
}

bool PlanScreen::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() != QEvent::KeyPress && event->type() != QEvent::ShortcutOverride) return false;
  auto* at = qobject_cast<QWidget*>(watched);
  if (!at || !isVisible() || !isAncestorOf(at)) return false;
  const auto* key = static_cast<QKeyEvent*>(event);
  const auto held = key->modifiers() & ~Qt::KeypadModifier;
  if (key->key() != Qt::Key_Z || (held != Qt::ControlModifier && held != (Qt::ControlModifier | Qt::ShiftModifier)))
    return false;
  if (const auto* line = qobject_cast<QLineEdit*>(at); line && line->isModified()) return false;
  if (event->type() == QEvent::ShortcutOverride) {
    event->accept();
    return true;
  }
  undo((held & Qt::ShiftModifier) != 0);
  return true;
}

}  // namespace likeleaf::ui
