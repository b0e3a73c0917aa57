#pragma once
// The boxes of one sitting's paper sheets, in the order of the printed sheet.
#include <QScrollArea>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/base/style.h"
#include "core/session/taster_port.h"

class QFrame;
class QGridLayout;
class QLabel;
class QPushButton;

namespace likeleaf::ui {

class PaperCell;
class WordPicker;

enum class PaperEntry { first, second };

/// Rows: fields in scoring order, then the comparing sip, words, faults, which cup was first, note, and (after the
/// lock) the two questions. Columns: the pairs of the sitting in serving order, each with its cup left and right. Enter
/// or Tab goes down one cup, then down the other, then to the next pair.
class PaperGrid final : public QScrollArea {
  Q_OBJECT
 public:
  PaperGrid(TasterPort& port, const Style& style, QWidget* parent);
  /// Other pairs on the table; the same again keeps focus and what is being typed.
  void show_pairs(const std::vector<BlindServing>& pairs, PaperEntry entry);
  /// Reads all boxes from the book again.
  void refresh();
  /// Hands on what is still being typed.
  void commit();
  /// The first box that can be typed in and is blank; without one, the first.
  void focus_first();
  void focus_cell(const QString& object_name);
  /// Boxes and locks in the order of Tab.
  [[nodiscard]] std::vector<QWidget*> controls() const;
  /// The pair whose box had the focus last.
  [[nodiscard]] std::optional<std::size_t> pair_in_hand() const { return in_hand_; }
  void set_lock_text(std::size_t pair, const QString& text);

 signals:
  void hint_changed(const QString& hint);  ///< what can be typed into the box in hand
  void changed();
  void lock_wanted(int pair);
  void undo_wanted();

 protected:
  /// Scrolls by focus, not by keys: Page up and down are the screen's.
  void keyPressEvent(QKeyEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  enum class Row { mark, answer, words, fault, first, note, saw, way };
  struct Cell {
    PaperCell* edit;
    std::size_t pair;
    Row row;
    std::optional<Side> side;
    const Attribute* attribute;
    std::string field;
  };
  struct Line {
    Row row;
    const Attribute* attribute;
    std::string field;
    QString name;
    bool new_group;
  };
  struct Head {
    QLabel *title, *progress;
    QPushButton* lock;
  };
  struct PendingGuess {
    std::optional<bool> saw;
    std::optional<std::optional<Side>> way;
  };

  void build();
  void make_head(QGridLayout* grid, std::size_t pair, int column);
  void make_cell(QGridLayout* grid, int at, int column, int span, std::size_t pair, const Line& line,
                 std::optional<Side> side);
  [[nodiscard]] std::vector<std::size_t> flow(std::size_t pair) const;
  QString take(std::size_t cell, const QString& typed);
  QString take_mark(const Cell& cell, const std::string& typed);
  QString take_answer(const Cell& cell, const std::string& typed);
  QString take_guess(const Cell& cell, const std::string& typed);
  QString put(const Result<std::uint64_t>& done);
  QString ready(const BlindServing& serving);
  [[nodiscard]] QString shown(const Cell& cell, const Sheet& sheet) const;
  /// A mark that the box abbreviates; empty where it does not.
  [[nodiscard]] QString in_words(const Cell& cell, const Sheet& sheet) const;
  [[nodiscard]] bool usable(const Cell& cell, const Sheet& sheet) const;
  [[nodiscard]] QString hint(const Cell& cell) const;
  [[nodiscard]] std::vector<Line> lines() const;
  void show_head(std::size_t pair, const Sheet& sheet);
  void sideways(std::size_t cell, int step);
  void say_at(PaperCell* cell, const QString& sentence);
  void open_words(std::size_t cell);
  void close_words(bool go_on);

  TasterPort& port_;
  Style style_;
  PaperEntry entry_ = PaperEntry::first;
  std::vector<BlindServing> pairs_;
  std::vector<Cell> cells_;
  std::vector<Head> heads_;
  std::map<IdOf<Serving>, PendingGuess> guesses_;
  std::optional<std::size_t> in_hand_;
  QWidget* sheet_ = nullptr;
  QLabel* said_ = nullptr;
  QFrame* words_box_ = nullptr;
  QLabel* words_title_ = nullptr;
  WordPicker* words_ = nullptr;
  std::optional<std::size_t> words_cell_;
};

}  // namespace likeleaf::ui
