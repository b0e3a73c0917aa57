#include "ui/plan/plan_screen.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPointer>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QTextEdit>
#include <QTimer>
#include <QVBoxLayout>
#include <algorithm>

#include "core/planning/plan_check.h"
#include "core/planning/plan_starter.h"
#include "core/wording/errors.h"
#include "ui/plan/plan_places.h"
#include "ui/plan/sections.h"
#include "ui/plan/verdict_panel.h"

namespace likeleaf::ui {
namespace {

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
  scroll_->verticalScrollBar()->setStyleSheet(thin_scroll_bar());
  auto* page = new Sheet;
  page->setObjectName(QStringLiteral("page"));
  make_sections(page);
  scroll_->setWidget(page);
  panel_ = new VerdictPanel(editor_, this);
  panel_->setFixedWidth(372);
  auto* across = new QHBoxLayout;
  across->setSpacing(18);
  across->addWidget(scroll_, 1);
  across->addWidget(panel_);
  down->addLayout(across, 1);
  editor_.look_again = [this] { refresh(); };
  connect(panel_, &VerdictPanel::wanted, this, &PlanScreen::show_place);
  connect(qApp, &QApplication::focusChanged, this, [this](QWidget*, QWidget* now) { keep_in_view(now); });
  changes_ = session_.on_change([this](const Notice& notice) {
    // Amendments and sheets: the words agreed may be written until the first sheet is begun.
    if (notice.part == Part::plan || notice.part == Part::seal || notice.part == Part::registers ||
        notice.part == Part::amendments || (notice.part == Part::sheet && isVisible()))
      refresh();
  });
  // A line of text would keep Ctrl+Z to itself; the plan's own undo goes first once the line is as it stands.
  qApp->installEventFilter(this);
  refresh();
}

PlanScreen::~PlanScreen() {
  // The base class moves the focus while it goes; by then there is no plan screen left to hear of it.
  disconnect(qApp, nullptr, this, nullptr);
  qApp->removeEventFilter(this);
}

void PlanScreen::make_sections(QWidget* page) {
  auto* columns = new QHBoxLayout(page);
  columns->setContentsMargins(0, 0, 8, 0);
  columns->setSpacing(26);
  const auto column = [&](const std::vector<PlanSection*>& sections) {
    auto* down = new QVBoxLayout;
    down->setSpacing(4);
    columns->addLayout(down, 1);
    for (auto* section : sections) {
      sections_.push_back(section);
      down->addWidget(section);
    }
    down->addStretch(1);
  };
  column({new ChangesSection(editor_, page), new StaysSection(editor_, page), new LeafSection(editor_, page),
          new ServingSection(editor_, page)});
  column({new MatterSection(editor_, page), new RuleSection(editor_, page), new WhoSection(editor_, page),
          new ControlsSection(editor_, page), new AgreeSection(editor_, page), new CountSection(editor_, page)});
}

void PlanScreen::refresh() {
  const auto trial = session_.trial();
  empty_->setVisible(!trial);
  scroll_->setVisible(trial != nullptr);
  panel_->setVisible(trial != nullptr);
  if (!trial) return;
  const auto notes =
      trial->sealed ? std::vector<PlanNote>{} : check(trial->draft, editor_.registers(), editor_.attributes());
  const auto places = notes_by_place(notes, {trial->draft, editor_.registers(), editor_.attributes()}, editor_.style());
  for (auto* section : sections_) section->refresh(trial->draft, places);
  panel_->refresh(*trial, notes);
}

void PlanScreen::show_place(const QString& object) {
  // A stock is written among the facts of its leaf, which may be folded away.
  for (const QString& name : {object, object.section(QLatin1Char('.'), 0, 1) + QStringLiteral(".facts")})
    for (auto* section : sections_)
      if (section->go_to(name)) return;
}

void PlanScreen::keep_in_view(QWidget* now) {
  if (!now || !scroll_->widget()->isAncestorOf(now)) return;
  // New rows are laid out after the focus came to them.
  QTimer::singleShot(0, this, [this, there = QPointer<QWidget>(now)] {
    if (there && scroll_->widget()->isAncestorOf(there)) scroll_->ensureWidgetVisible(there, 0, 48);
    scroll_->horizontalScrollBar()->setValue(0);
  });
}

/// Everything that Tab stops at, in the order of the page: rows are made again while a person writes, so their place in
/// the window's own chain says nothing.
std::vector<QWidget*> PlanScreen::stops() const {
  std::vector<QWidget*> out;
  const auto take = [&](QWidget* w) {
    // The list of a choice is a window of its own.
    if ((w->focusPolicy() & Qt::TabFocus) != 0 && !w->focusProxy() && w->isVisible() && w->isEnabled() &&
        w->window() == window())
      out.push_back(w);
  };
  take(findChild<QPushButton*>(QStringLiteral("begin")));
  for (auto* section : sections_)
    for (auto* w : section->findChildren<QWidget*>()) take(w);
  auto* seal = panel_->findChild<QPushButton*>(QStringLiteral("seal"));
  for (auto* w : panel_->findChildren<QPushButton*>())
    if (w != seal && !w->objectName().isEmpty()) take(w);
  take(seal);
  return out;
}

void PlanScreen::focus_top() {
  if (const auto all = stops(); !all.empty()) all.front()->setFocus();
}

bool PlanScreen::focusNextPrevChild(bool next) {
  const auto all = stops();
  if (all.empty()) return QWidget::focusNextPrevChild(next);
  const auto reason = next ? Qt::TabFocusReason : Qt::BacktabFocusReason;
  const auto at = std::ranges::find(all, focusWidget());
  const bool inside = at != all.end();
  const bool last = inside && (next ? at + 1 == all.end() : at == all.begin());
  if (last) {
    if (auto* out = beyond(next)) {
      out->setFocus(reason);
      return true;
    }
  }
  QWidget* to = !inside || last ? (next ? all.front() : all.back()) : next ? *(at + 1) : *(at - 1);
  stop_at(to, reason);
  return true;
}

void PlanScreen::stop_at(QWidget* stop, Qt::FocusReason reason) {
  walking_ = true;
  stop->setFocus(reason);
  walking_ = false;
}

/// The stop of the window that comes after this screen, or before it; nothing when there is none.
QWidget* PlanScreen::beyond(bool next) const {
  constexpr int most_widgets = 5000;
  auto* w = const_cast<PlanScreen*>(this)->focusWidget();
  for (int i = 0; w && i < most_widgets; ++i) {
    w = next ? w->nextInFocusChain() : w->previousInFocusChain();
    if (w && w != this && !isAncestorOf(w) && (w->focusPolicy() & Qt::TabFocus) != 0 && !w->focusProxy() &&
        w->isVisible() && w->isEnabled() && w->window() == window())
      return w;
  }
  return nullptr;
}

void PlanScreen::begin() {
  const auto made = session_.new_trial(starter_plan(session_.attributes()));
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
  if (event->type() == QEvent::FocusIn && !walking_) {
    // Tab that comes in from the rest of the window lands wherever the window's chain says; the page begins at its top.
    const auto reason = static_cast<QFocusEvent*>(event)->reason();
    auto* w = qobject_cast<QWidget*>(watched);
    if ((reason != Qt::TabFocusReason && reason != Qt::BacktabFocusReason) || !w || !isAncestorOf(w)) return false;
    const auto all = stops();
    if (all.empty()) return false;
    auto* wanted = reason == Qt::TabFocusReason ? all.front() : all.back();
    if (wanted == w) return false;
    stop_at(wanted, reason);
    return true;
  }
  if (event->type() != QEvent::KeyPress && event->type() != QEvent::ShortcutOverride) return false;
  auto* at = qobject_cast<QWidget*>(watched);
  if (!at || !isVisible() || !isAncestorOf(at)) return false;
  const auto* key = static_cast<QKeyEvent*>(event);
  const auto held = key->modifiers() & ~Qt::KeypadModifier;
  if (key->key() != Qt::Key_Z || (held != Qt::ControlModifier && held != (Qt::ControlModifier | Qt::ShiftModifier)))
    return false;
  if (const auto* line = qobject_cast<QLineEdit*>(at); line && line->isModified()) return false;
  if (const auto* page = qobject_cast<QTextEdit*>(at); page && page->document()->isModified()) return false;
  if (event->type() == QEvent::ShortcutOverride) {
    event->accept();
    return true;
  }
  undo((held & Qt::ShiftModifier) != 0);
  return true;
}

}  // namespace likeleaf::ui
