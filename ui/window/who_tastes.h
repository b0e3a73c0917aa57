#pragma once
#include <QWidget>
#include <string>
#include <utility>
#include <vector>

class QLabel;
class QVBoxLayout;

namespace likeleaf::ui {

/// "Who tastes?": one large button a taster. Nothing of the trial stands here.
class WhoTastes final : public QWidget {
  Q_OBJECT
 public:
  explicit WhoTastes(QWidget* parent = nullptr);
  /// Aliases with a short line each ("3 of 15 sheets locked").
  void set_tasters(const std::vector<std::pair<QString, QString>>& tasters);
  void set_message(const QString& message);

 signals:
  void chosen(int index);
  void paper_wanted(int index);  ///< to type in what this taster wrote on paper
  void sheets_wanted();          ///< score sheets to print

 private:
  QVBoxLayout* list_;
  QWidget* sheets_;
  QLabel* message_;
};

}  // namespace likeleaf::ui
