#pragma once
// What every part of the plan screen shares: how an edit goes out, how a list of rows follows the plan, and how a part
// says what is to be said of its fields.
#include <QString>
#include <QStringList>
#include <QWidget>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/base/style.h"
#include "core/session/session.h"
#include "ui/theme/theme.h"

class QBoxLayout;
class QGridLayout;
class QHBoxLayout;
class QLabel;
class QPushButton;
class QVBoxLayout;

namespace likeleaf::ui {

class BlankLine;
class BlankText;

inline QString qt(const std::string& s) {
  return QString::fromStdString(s);
}

/// Plain text that wraps.
QLabel* words(const QString& s, const QFont& font, const QColor& color, QWidget* parent);
/// A scroll bar as a thin line without arrows.
QString thin_scroll_bar();
/// A row at the end of a column.
QHBoxLayout* row_in(QVBoxLayout* down);
/// Takes an element out; a place past the end is none.
template <class T>
void erase_at(std::vector<T>& all, std::size_t at) {
  if (at < all.size()) all.erase(all.begin() + static_cast<std::ptrdiff_t>(at));
}

/// Sends edits of the trial's plan to the session; the plan on the bench is the only one there is.
class PlanEditor {
 public:
  PlanEditor(Session& session, const Style& style) : session_(session), style_(style) {}
  [[nodiscard]] Session& session() const { return session_; }
  [[nodiscard]] const Style& style() const { return style_; }
  /// The registers as they were sealed, or the book's of today while the plan is a draft.
  [[nodiscard]] const Registers& registers() const;
  [[nodiscard]] const std::vector<Attribute>& attributes() const;
  /// Nothing may be changed: sealed, a book for reading only, or no trial.
  [[nodiscard]] bool locked() const;
  /// Applies a change to a copy of the draft and sends it; the error in words, empty when it was taken.
  QString edit(const std::function<Result<void>(Plan&)>& change) const;
  /// An edit that cannot be wrong by itself.
  QString set(const std::function<void(Plan&)>& change) const;
  /// Puts a record into the register; the error in words.
  template <class Record>
  QString put(const Record& record) const {
    return refusal(session_.put(record));
  }
  [[nodiscard]] static QString refusal(const Result<Ticket>& done);

  /// Asks for the whole screen to be looked at again: a part was opened or closed.
  std::function<void()> look_again = [] {};

 private:
  Session& session_;
  const Style& style_;
};

/// What is to be said at one place of the plan.
struct PlaceNotes {
  QStringList sentences;
  bool wanted = false;  ///< nothing is there yet and the seal waits for it
};
/// By the object name of the control it belongs to.
using NotesByPlace = std::map<QString, PlaceNotes>;

/// A part of the plan. Its rows are made again when signature() changes, and only their values are set otherwise, so
/// that the focus stays where the person is.
class PlanSection : public QWidget {
 public:
  explicit PlanSection(PlanEditor& editor, QWidget* parent);
  /// Returns true when the rows were made again.
  bool refresh(const Plan& plan, const NotesByPlace& notes);
  /// Puts the focus into the named widget with its text selected; false when it is not here.
  bool go_to(const QString& object);

 protected:
  using Read = std::function<QString(const Plan&)>;
  using Write = std::function<Result<void>(Plan&, const QString&)>;
  using OwnWrite = std::function<QString(const QString&)>;
  virtual QString signature(const Plan& plan) const = 0;
  virtual void build(const Plan& plan, QVBoxLayout* down) = 0;

  void bind(std::function<void(const Plan&)> show) { shows_.push_back(std::move(show)); }
  QLabel* heading(const QString& text, QVBoxLayout* down, double pixels = 15);
  QLabel* soft(const QString& text, QBoxLayout* into);
  /// Soft words that follow the plan; hidden while there are none.
  QLabel* soft_bound(QBoxLayout* into, const Read& read);
  BlankLine* blank(const QString& name, const QString& object, const Read& read, const Write& write,
                   const QString& placeholder = {});
  /// A blank whose edit does not go through the plan (registers): `write` returns the sentence of a refusal.
  BlankLine* own_blank(const QString& name, const QString& object, const Read& read, const OwnWrite& write,
                       const QString& placeholder = {});
  /// The same two for text that may take more than a line.
  BlankText* text_blank(const QString& name, const QString& object, const Read& read, const Write& write,
                        const QString& placeholder = {});
  BlankText* own_text(const QString& name, const QString& object, const Read& read, const OwnWrite& write,
                      const QString& placeholder = {});
  /// Small − and + beside a number, for the mouse.
  void steppers(const QString& name, const QString& object, QBoxLayout* into,
                const std::function<void(Plan&, int)>& step);
  /// A choice; a label with the chosen words where nothing may be changed.
  QWidget* choice(const QString& name, const QString& object, const std::function<QStringList(const Plan&)>& items,
                  const std::function<int(const Plan&)>& read, const std::function<void(Plan&, int)>& write);
  /// The same for registers: `write` returns the sentence of a refusal.
  QWidget* own_choice(const QString& name, const QString& object, const std::function<QStringList(const Plan&)>& items,
                      const std::function<int(const Plan&)>& read, const std::function<QString(int)>& write);
  QWidget* tick(const Read& name, const QString& object, const std::function<bool(const Plan&)>& read,
                const std::function<void(Plan&, bool)>& write, bool dot = false);
  QWidget* tick(const QString& name, const QString& object, const std::function<bool(const Plan&)>& read,
                const std::function<void(Plan&, bool)>& write, bool dot = false);
  /// A quiet button; nullptr where nothing may be changed.
  QPushButton* act(const QString& text, const QString& name, const QString& object, const std::function<void()>& run);
  /// Opens and closes what lies under a row; works on a sealed plan too.
  QPushButton* fold(const QString& text, const QString& name, const QString& object);
  [[nodiscard]] bool is_open(const QString& object) const { return open_.contains(object); }
  void open(const QString& object) { open_.insert(object); }
  void close_all() { open_.clear(); }
  /// Room under a row for the sentences of a blank too narrow to have them under itself.
  template <class Blank>
  void speak_under(Blank* blank, QVBoxLayout* down) {
    blank->say_in(room(down));
  }
  QLabel* room(QVBoxLayout* down);
  /// Room for what is to be said of a control that cannot say it itself.
  void notes_under(const QString& object, QVBoxLayout* down);
  /// A small form under a row: a soft name at the left, the field at the right.
  void form_row(const QString& name, QWidget* field, QVBoxLayout* down, int indent = 22);
  /// A refusal with no field of its own.
  void say(const QString& sentence);

  PlanEditor& editor_;

 private:
  template <class Blank>
  void wire(Blank* out, const QString& object, const Read& read, const OwnWrite& write);
  void rebuild(const Plan& plan);

  QVBoxLayout* down_;
  QWidget* body_ = nullptr;
  QLabel* refusal_;
  QString shown_;
  std::set<QString> open_;
  std::vector<std::function<void(const Plan&)>> shows_;
  std::vector<std::pair<QString, std::function<void(const PlaceNotes&)>>> places_;
};

}  // namespace likeleaf::ui
