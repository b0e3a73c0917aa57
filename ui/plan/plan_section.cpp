#include "ui/plan/plan_section.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <QWheelEvent>

#include "core/wording/errors.h"
#include "ui/widgets/blank_line.h"

namespace likeleaf::ui {
namespace {

/// Turning the wheel over a page must not change a choice that happens to lie under the pointer.
class QuietCombo final : public QComboBox {
 public:
  using QComboBox::QComboBox;

 protected:
  void wheelEvent(QWheelEvent* event) override {
    if (hasFocus())
      QComboBox::wheelEvent(event);
    else
      event->ignore();
  }
};

}  // namespace

QLabel* words(const QString& s, const QFont& font, const QColor& color, QWidget* parent) {
  auto* l = new QLabel(s, parent);
  l->setFont(font);
  l->setWordWrap(true);
  l->setTextFormat(Qt::PlainText);
  QPalette p = l->palette();
  p.setColor(QPalette::WindowText, color);
  l->setPalette(p);
  return l;
}

bool PlanEditor::locked() const {
  const auto trial = session_.trial();
  return !trial || trial->sealed || session_.read_only();
}

QString PlanEditor::edit(const std::function<Result<void>(Plan&)>& change) const {
  const auto trial = session_.trial();
  if (!trial) return QStringLiteral("There is no trial to change.");
  Plan plan = trial->draft;
  if (const auto changed = change(plan); !changed) return qt(wording::sentence(changed.error()));
  if (const auto done = session_.run(SetPlan{std::move(plan)}); !done) return qt(wording::sentence(done.error()));
  return {};
}

QString PlanEditor::set(const std::function<void(Plan&)>& change) const {
  return edit([&](Plan& plan) -> Result<void> {
    change(plan);
    return {};
  });
}

PlanSection::PlanSection(PlanEditor& editor, QWidget* parent)
    : QWidget(parent), editor_(editor), down_(new QVBoxLayout(this)) {
  down_->setContentsMargins(0, 0, 0, 0);
  down_->setSpacing(4);
  refusal_ = words({}, face(15), tokens().caution, this);
  refusal_->hide();
  down_->addWidget(refusal_);
}

bool PlanSection::refresh(const Plan& plan) {
  const QString now = signature(plan) + (editor_.locked() ? QStringLiteral("|locked") : QStringLiteral("|open"));
  const bool again = !body_ || now != shown_;
  if (again) {
    shown_ = now;
    rebuild(plan);
  }
  // A value's own edit may make this section's rows again while the list is walked.
  const auto shows = shows_;
  for (const auto& show : shows) show(plan);
  return again;
}

void PlanSection::rebuild(const Plan& plan) {
  QString focus;
  if (body_) {
    if (auto* at = body_->window()->focusWidget(); at && body_->isAncestorOf(at)) focus = at->objectName();
    for (auto* child : body_->findChildren<QWidget*>()) child->setObjectName({});
  }
  shows_.clear();
  auto* old = body_;
  body_ = new QWidget(this);
  auto* into = new QVBoxLayout(body_);
  into->setContentsMargins(0, 0, 0, 0);
  into->setSpacing(4);
  build(plan, into);
  down_->insertWidget(0, body_);
  body_->show();
  if (!focus.isEmpty()) go_to(focus);
  if (old) {
    down_->removeWidget(old);
    old->hide();
    // Out of the tree at once; its signal may still be running, so it goes later.
    old->setParent(nullptr);
    old->deleteLater();
  }
}

void PlanSection::go_to(const QString& object) {
  auto* there = findChild<QWidget*>(object);
  if (!there) return;
  there->setFocus(Qt::OtherFocusReason);
  if (auto* line = qobject_cast<QLineEdit*>(there)) line->selectAll();
}

QLabel* PlanSection::heading(const QString& text, QVBoxLayout* down, double pixels) {
  if (pixels < 20) down->addSpacing(14);
  auto* l = words(text, face(pixels, Weight::semi_bold), tokens().ink, this);
  down->addWidget(l);
  return l;
}

QLabel* PlanSection::soft(const QString& text, QBoxLayout* into) {
  auto* l = words(text, face(15), tokens().soft_ink, this);
  l->setWordWrap(dynamic_cast<QVBoxLayout*>(into) != nullptr);
  into->addWidget(l);
  return l;
}

BlankLine* PlanSection::blank(const QString& name, const QString& object, const Read& read, const Write& write,
                              const QString& placeholder) {
  return own_blank(
      name, object, read,
      [this, write](const QString& text) { return editor_.edit([&](Plan& plan) { return write(plan, text); }); },
      placeholder);
}

BlankLine* PlanSection::own_blank(const QString& name, const QString& object, const Read& read,
                                  const std::function<QString(const QString&)>& write, const QString& placeholder) {
  auto* out = new BlankLine(name, placeholder, body_);
  out->line()->setObjectName(object);
  out->set_read_only(editor_.locked());
  bind([out, read](const Plan& plan) { out->set_value(read(plan)); });
  connect(out, &BlankLine::typed, this, [this, out, read, write](const QString& text) {
    const QString refused = write(text);
    out->set_message(refused);
    // What stands is what the book has, in the words of the house.
    if (const auto trial = editor_.session().trial()) out->set_value(read(trial->draft), true);
  });
  return out;
}

void PlanSection::steppers(const QString& name, const QString& object, QBoxLayout* into,
                           const std::function<void(Plan&, int)>& step) {
  if (editor_.locked()) return;
  for (const int way : {-1, 1}) {
    auto* b = act(way < 0 ? QStringLiteral("−") : QStringLiteral("+"),
                  way < 0 ? name + QStringLiteral(", less") : name + QStringLiteral(", more"),
                  object + (way < 0 ? QStringLiteral(".less") : QStringLiteral(".more")),
                  [this, step, way] { say(editor_.set([&](Plan& plan) { step(plan, way); })); });
    b->setFocusPolicy(Qt::ClickFocus);
    b->setAutoRepeat(true);
    b->setFixedSize(22, 30);
    into->addWidget(b, 0, Qt::AlignTop);
  }
}

QWidget* PlanSection::choice(const QString& name, const QString& object,
                             const std::function<QStringList(const Plan&)>& items,
                             const std::function<int(const Plan&)>& read,
                             const std::function<void(Plan&, int)>& write) {
  if (editor_.locked()) {
    auto* l = words({}, face(15, Weight::medium), tokens().ink, body_);
    l->setObjectName(object);
    l->setAccessibleName(name);
    bind([l, items, read](const Plan& plan) { l->setText(items(plan).value(read(plan))); });
    return l;
  }
  auto* c = new QuietCombo(body_);
  c->setObjectName(object);
  c->setAccessibleName(name);
  c->setFont(face(15));
  c->setFrame(false);
  c->setStyleSheet(
      QStringLiteral(
          "QComboBox { background: transparent; color: %1; border: none; border-bottom: 1px solid %2; padding: 1px "
          "2px; }"
          "QComboBox:focus { border-bottom: 2px solid %3; } QComboBox::drop-down { border: none; width: 16px; }"
          "QComboBox QAbstractItemView { background: %4; color: %1; selection-background-color: %3; selection-color: "
          "%5; }")
          .arg(tokens().ink.name(), tokens().line.name(), tokens().action.name(), tokens().sheet.name(),
               tokens().on_action.name()));
  c->setMinimumHeight(30);
  c->setMinimumContentsLength(4);
  c->setSizeAdjustPolicy(QComboBox::AdjustToContents);
  c->setFocusPolicy(Qt::StrongFocus);
  bind([c, items, read](const Plan& plan) {
    const QStringList wanted = items(plan);
    QStringList there;
    for (int i = 0; i < c->count(); ++i) there << c->itemText(i);
    if (there != wanted) {
      c->clear();
      c->addItems(wanted);
    }
    c->setCurrentIndex(read(plan));
  });
  connect(c, &QComboBox::activated, this,
          [this, write](int at) { say(editor_.set([&](Plan& plan) { write(plan, at); })); });
  return c;
}

QWidget* PlanSection::tick(const QString& name, const QString& object, const std::function<bool(const Plan&)>& read,
                           const std::function<void(Plan&, bool)>& write) {
  if (editor_.locked()) {
    auto* l = words({}, face(15), tokens().ink, body_);
    l->setObjectName(object);
    bind([l, name, read](const Plan& plan) {
      l->setText((read(plan) ? QStringLiteral("✓ ") : QStringLiteral("– ")) + name);
    });
    return l;
  }
  auto* box = new QCheckBox(name, body_);
  box->setObjectName(object);
  box->setAccessibleName(name);
  box->setFont(face(15));
  box->setMinimumHeight(30);
  bind([box, read](const Plan& plan) { box->setChecked(read(plan)); });
  connect(box, &QCheckBox::clicked, this,
          [this, write](bool on) { say(editor_.set([&](Plan& plan) { write(plan, on); })); });
  return box;
}

QPushButton* PlanSection::act(const QString& text, const QString& name, const QString& object,
                              const std::function<void()>& run) {
  if (editor_.locked()) return nullptr;
  auto* b = new QPushButton(text, body_);
  b->setObjectName(object);
  b->setAccessibleName(name);
  b->setFlat(true);
  b->setFont(face(15));
  b->setMinimumHeight(30);
  b->setCursor(Qt::PointingHandCursor);
  const Tokens& t = tokens();
  b->setStyleSheet(
      QStringLiteral("QPushButton { color: %1; border: 1px solid transparent; padding: 2px 4px; text-align: left; }"
                     "QPushButton:focus { border: 1px solid %1; border-radius: 4px; }"
                     "QPushButton:hover { background: %2; border-radius: 4px; }")
          .arg(t.action.name(), t.band.name()));
  connect(b, &QPushButton::clicked, this, [run] { run(); });
  return b;
}

void PlanSection::say(const QString& sentence) {
  refusal_->setText(sentence);
  refusal_->setVisible(!sentence.isEmpty());
}

}  // namespace likeleaf::ui
