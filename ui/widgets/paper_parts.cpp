#include "ui/widgets/paper_parts.h"

#include <QApplication>
#include <QClipboard>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPainter>
#include <QScrollBar>
#include <QTableWidget>
#include <QVBoxLayout>

#include "core/exchange/csv_text.h"

namespace likeleaf::ui {
namespace {

QPushButton* button(const QString& text, const QString& object_name, QWidget* parent) {
  auto* b = new QPushButton(text, parent);
  b->setObjectName(object_name);
  b->setCursor(Qt::PointingHandCursor);
  b->setFont(face(15, Weight::semi_bold));
  b->setMinimumHeight(44);
  b->setAutoDefault(true);  // Enter presses it, as Space does
  return b;
}

}  // namespace

QLabel* label(const QString& text, const QFont& font, const QColor& color, QWidget* parent) {
  auto* l = new QLabel(text, parent);
  l->setFont(font);
  l->setWordWrap(true);
  l->setTextFormat(Qt::PlainText);
  l->setTextInteractionFlags(Qt::TextSelectableByMouse);
  QPalette p = l->palette();
  p.setColor(QPalette::WindowText, color);
  l->setPalette(p);
  return l;
}

QPushButton* filled_button(const QString& text, const QString& object_name, QWidget* parent) {
  auto* b = button(text, object_name, parent);
  const Tokens& t = tokens();
  b->setStyleSheet(
      QStringLiteral(
          "QPushButton { background: %1; color: %2; border: 2px solid %1; border-radius: 6px; padding: 0 18px; "
          "outline: none; }"
          "QPushButton:focus { border-color: %3; } QPushButton:disabled { background: %4; border-color: %4; color: %3; "
          "}")
          .arg(t.action.name(), t.on_action.name(), t.ink.name(), t.line.name()));
  return b;
}

QPushButton* outlined_button(const QString& text, const QString& object_name, QWidget* parent) {
  auto* b = button(text, object_name, parent);
  const Tokens& t = tokens();
  b->setStyleSheet(QStringLiteral("QPushButton { background: transparent; color: %1; border: 1px solid %1; "
                                  "border-radius: 6px; padding: 0 16px; outline: none; }"
                                  "QPushButton:focus { border: 2px solid %2; } QPushButton:hover { background: %3; }"
                                  "QPushButton:checked { background: %3; border: 2px solid %1; }")
                       .arg(t.action.name(), t.ink.name(), t.band.name()));
  return b;
}

QPushButton* quiet_button(const QString& text, const QString& object_name, QWidget* parent) {
  auto* b = button(text, object_name, parent);
  b->setFont(face(15));
  b->setMinimumHeight(32);
  const Tokens& t = tokens();
  b->setStyleSheet(QStringLiteral("QPushButton { background: transparent; color: %1; border: none; border-bottom: 2px "
                                  "solid transparent; padding: 2px 2px; outline: none; }"
                                  "QPushButton:hover { color: %2; } QPushButton:focus { border-bottom-color: %2; }"
                                  "QPushButton:checked { color: %2; border-bottom-color: %3; }")
                       .arg(t.soft_ink.name(), t.ink.name(), t.action.name()));
  return b;
}

Card::Card(QWidget* parent) : QFrame(parent) {}

void Card::paintEvent(QPaintEvent*) {
  QPainter p(this);
  p.setRenderHint(QPainter::Antialiasing);
  p.setPen(QPen(tokens().line, 1));
  p.setBrush(tokens().sheet);
  p.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), 8, 8);
}

SideRule::SideRule(QWidget* parent) : QFrame(parent) {}

void SideRule::paintEvent(QPaintEvent*) {
  QPainter(this).fillRect(QRect(0, 0, 3, height()), tokens().action);
}

TableView::TableView(report::Table table, QString file_stem, PathPrompt prompt, QWidget* parent)
    : QWidget(parent), table_(std::move(table)) {
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 0, 0, 8);
  down->setSpacing(4);
  down->addWidget(label(QString::fromStdString(table_.caption), face(15, Weight::medium), tokens().ink, this));
  const int rows = static_cast<int>(table_.rows.size()), columns = static_cast<int>(table_.columns.size());
  auto* grid = new QTableWidget(rows, columns, this);
  grid->setObjectName(QStringLiteral("numbers"));
  grid->setAccessibleName(QString::fromStdString(table_.caption));
  grid->setEditTriggers(QAbstractItemView::NoEditTriggers);
  grid->setFrameShape(QFrame::NoFrame);
  grid->setTabKeyNavigation(false);
  grid->verticalHeader()->hide();
  grid->setFont(face(13));
  grid->horizontalHeader()->setFont(face(13, Weight::medium));
  grid->setShowGrid(false);
  grid->setSelectionBehavior(QAbstractItemView::SelectRows);
  grid->setAlternatingRowColors(true);
  QPalette stripes = grid->palette();
  stripes.setColor(QPalette::AlternateBase, tokens().paper);
  grid->setPalette(stripes);
  QStringList heads;
  for (const auto& c : table_.columns) heads << QString::fromStdString(c);
  grid->setHorizontalHeaderLabels(heads);
  for (int r = 0; r < rows; ++r)
    for (int c = 0; c < columns; ++c) {
      const auto& cells = table_.rows[static_cast<std::size_t>(r)];
      const auto at = static_cast<std::size_t>(c);
      auto* item = new QTableWidgetItem(at < cells.size() ? QString::fromStdString(cells[at]) : QString());
      const bool numeric = at < table_.numeric.size() && table_.numeric[at];
      item->setTextAlignment((numeric ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
      grid->setItem(r, c, item);
    }
  grid->resizeColumnsToContents();
  for (int c = 0; c < columns; ++c) grid->setColumnWidth(c, grid->columnWidth(c) + 14);
  grid->resizeRowsToContents();
  int height = grid->horizontalHeader()->sizeHint().height() + grid->horizontalScrollBar()->sizeHint().height() + 4;
  for (int r = 0; r < rows; ++r) height += grid->rowHeight(r);
  grid->setFixedHeight(std::min(height, 360));
  down->addWidget(grid);
  auto* acts = new QHBoxLayout;
  acts->setSpacing(14);
  auto* said = label({}, face(15), tokens().soft_ink, this);
  auto* copy = quiet_button(QStringLiteral("Copy"), QStringLiteral("copy_table"), this);
  copy->setAccessibleName(QStringLiteral("Copy this table"));
  connect(copy, &QPushButton::clicked, this, [this, said] {
    QApplication::clipboard()->setText(QString::fromUtf8(csv()));
    said->setText(QStringLiteral("Copied."));
  });
  auto* save = quiet_button(QStringLiteral("CSV…"), QStringLiteral("save_table"), this);
  save->setAccessibleName(QStringLiteral("Save this table as CSV"));
  connect(save, &QPushButton::clicked, this, [this, said, stem = std::move(file_stem), ask = std::move(prompt)] {
    const QString path = ask(stem + QStringLiteral(".csv"), QStringLiteral("CSV (*.csv)"));
    if (!path.isEmpty()) said->setText(save_said(path, csv()));
  });
  acts->addWidget(copy);
  acts->addWidget(save);
  acts->addWidget(said, 1);
  down->addLayout(acts);
}

QByteArray TableView::csv() const {
  exchange::CsvWriter out;
  for (const auto& c : table_.columns) out.plain(c);
  out.end_row();
  for (const auto& row : table_.rows) {
    for (std::size_t i = 0; i < row.size(); ++i)
      i < table_.numeric.size() && table_.numeric[i] ? out.plain(row[i]) : out.text(row[i]);
    out.end_row();
  }
  return QByteArray::fromStdString(out.take());
}

}  // namespace likeleaf::ui
