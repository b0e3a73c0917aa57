#pragma once
#include <QStyledItemDelegate>

namespace likeleaf::ui {

/// Draws a trial of the list: its question in ink, under it what changes and how far it is in soft ink. The item's text
/// has a line for each, so that a screen reader says the same.
class TrialDelegate final : public QStyledItemDelegate {
  Q_OBJECT
 public:
  using QStyledItemDelegate::QStyledItemDelegate;
  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
  [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

}  // namespace likeleaf::ui
