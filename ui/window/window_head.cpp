#include "ui/window/window_head.h"

#include <QActionGroup>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPainter>
#include <QToolButton>
#include <QVBoxLayout>

#include "ui/theme/theme.h"
#include "ui/widgets/quiet.h"
#include "ui/window/stage_bar.h"

namespace likeleaf::ui {
namespace {

constexpr int book_width = 150;

/// One line that ends in … where there is no room for the whole; the whole is its text, and is shown to who points at
/// it.
class FittingLabel final : public QLabel {
 public:
  FittingLabel(Qt::TextElideMode where, QWidget* parent) : QLabel(parent), where_(where) {
    setProperty("elides", true);
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter p(this);
    p.setPen(palette().color(QPalette::WindowText));
    const QString shown = fontMetrics().elidedText(text(), where_, width());
    p.drawText(rect(), static_cast<int>(alignment()), shown);
    setToolTip(shown == text() ? QString() : tip_text(text()));
  }

 private:
  Qt::TextElideMode where_;
};

QLabel* head_label(const char* name, Qt::TextElideMode where, const QFont& font, const QColor& color, QWidget* parent) {
  auto* l = new FittingLabel(where, parent);
  l->setObjectName(QString::fromLatin1(name));
  l->setFont(font);
  l->setTextFormat(Qt::PlainText);
  QPalette p = l->palette();
  p.setColor(QPalette::WindowText, color);
  l->setPalette(p);
  return l;
}

QVBoxLayout* two_lines(QLabel* above, QLabel* below) {
  auto* column = new QVBoxLayout;
  column->setSpacing(2);
  column->addStretch(1);
  column->addWidget(above);
  column->addWidget(below);
  column->addStretch(1);
  return column;
}

}  // namespace

WindowHead::WindowHead(const Look& look, QWidget* parent) : QWidget(parent) {
  const Tokens& t = tokens();
  setFixedHeight(64);
  auto* across = new QHBoxLayout(this);
  across->setContentsMargins(28, 0, 20, 0);
  title_ = head_label("title", Qt::ElideRight, face(16, Weight::semi_bold), t.ink, this);
  subtitle_ = head_label("subtitle", Qt::ElideRight, face(13), t.soft_ink, this);
  // A long question gives way to the bar rather than widening the window.
  for (auto* l : {title_, subtitle_}) l->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
  book_ = head_label("book", Qt::ElideMiddle, face(13), t.soft_ink, this);
  kept_ = head_label("kept", Qt::ElideRight, face(13), t.soft_ink, this);
  for (auto* l : {book_, kept_}) {
    l->setAlignment(Qt::AlignRight);
    l->setFixedWidth(book_width);  // the bar stays where it is when something is kept
  }
  bar_ = new StageBar(this);
  across->addLayout(two_lines(title_, subtitle_), 1);
  across->addWidget(bar_);
  across->addSpacing(16);
  across->addLayout(two_lines(book_, kept_));
  across->addSpacing(8);
  across->addWidget(make_view(look));
}

QToolButton* WindowHead::make_view(const Look& look) {
  const Tokens& t = tokens();
  auto* view = new QToolButton(this);
  view->setObjectName(QStringLiteral("view"));
  view->setText(look.style.temperature == TemperatureUnit::fahrenheit ? QStringLiteral("°F") : QStringLiteral("°C"));
  view->setAccessibleName(
      QStringLiteral("View: %1, %2").arg(view->text(), look.dark ? QStringLiteral("dark") : QStringLiteral("light")));
  view->setToolTip(QStringLiteral("°C or °F, light or dark"));
  view->setFont(face(15));
  view->setMinimumSize(44, 36);
  view->setFocusPolicy(Qt::TabFocus);
  view->setPopupMode(QToolButton::InstantPopup);
  view->setStyleSheet(QStringLiteral("QToolButton{background:transparent;color:%1;border:1px solid transparent;"
                                     "border-radius:6px;padding:0 14px 0 6px;}"
                                     "QToolButton:hover{border-color:%2;}QToolButton:focus{border:2px solid %3;}")
                          .arg(t.soft_ink.name(), t.line.name(), t.action.name()));
  auto* menu = new QMenu(view);
  menu->setAccessibleName(QStringLiteral("View"));
  const auto choice = [&](QActionGroup* group, const QString& words, const char* object, bool chosen, Look wanted) {
    auto* action = menu->addAction(words);
    action->setObjectName(QString::fromLatin1(object));
    action->setCheckable(true);
    action->setChecked(chosen);
    group->addAction(action);
    connect(
        action, &QAction::triggered, this, [this, wanted] { emit look_wanted(wanted); }, Qt::QueuedConnection);
  };
  const bool fahrenheit = look.style.temperature == TemperatureUnit::fahrenheit;
  Look celsius_look = look, fahrenheit_look = look, light = look, dark = look;
  celsius_look.style.temperature = TemperatureUnit::celsius;
  fahrenheit_look.style.temperature = TemperatureUnit::fahrenheit;
  light.dark = false;
  dark.dark = true;
  auto* units = new QActionGroup(menu);
  choice(units, QStringLiteral("Temperatures in °&C"), "view_celsius", !fahrenheit, celsius_look);
  choice(units, QStringLiteral("Temperatures in °&F"), "view_fahrenheit", fahrenheit, fahrenheit_look);
  menu->addSeparator();
  auto* colours = new QActionGroup(menu);
  choice(colours, QStringLiteral("&Light"), "view_light", !look.dark, light);
  choice(colours, QStringLiteral("&Dark"), "view_dark", look.dark, dark);
  view->setMenu(menu);
  return view;
}

void WindowHead::show_trial(const QString& title, const QString& subtitle) {
  title_->setText(title);
  subtitle_->setText(subtitle);
}

void WindowHead::show_book(const QString& name) {
  book_->setText(name);
}

void WindowHead::show_kept(const QString& words) {
  kept_->setText(words);
}

}  // namespace likeleaf::ui
