#pragma once
#include <QMainWindow>
#include <filesystem>
#include <memory>
#include <optional>

#include "core/session/session.h"
#include "ui/window/book_prompts.h"
#include "ui/window/look.h"
#include "ui/window/stage_bar.h"

class QStackedWidget;

namespace likeleaf::ui {

class BrewScreen;
class FindingsScreen;
class KeptStrip;
class PaperScreen;
class PlanScreen;
class PrintsScreen;
class ReportScreen;
class StartScreen;
class TasteScreen;
class TrialAnswers;
struct FindingsShelf;
class WhoTastes;
class WindowHead;

/// The window: a head with the trial, the way through it, the book and "kept hh:mm:ss"; under it the screen of now.
/// While somebody tastes, trial, question and book leave head and title.
class MainWindow final : public QMainWindow {
  Q_OBJECT
 public:
  MainWindow(const Services& services, const Look& look, QWidget* parent = nullptr);
  MainWindow(const Services& services, const Style& style, QWidget* parent = nullptr);
  ~MainWindow() override;
  /// Opens a book; when it cannot be changed it is opened for reading and that is said. What cannot be opened at all, a
  /// book open elsewhere with its holder named, is said on the start screen, and the book at hand stays.
  void open_book(const std::filesystem::path& book);
  /// The same once the first frame stands, so that a large book does not hold the window back.
  void open_book_soon(const std::filesystem::path& book);
  /// Another unit or other colours: all screens are made anew where one is; the trial on the bench stays.
  void set_look(const Look& look);
  /// Waits until everything that was typed is on disk, as closing does.
  Result<void> flush();
  void set_prompts(BookPrompts prompts) { prompts_ = std::move(prompts); }

 signals:
  void look_changed(const likeleaf::ui::Look& look);

 protected:
  /// What is being typed is taken first. What could not be kept holds the window open once, with the reason; closing
  /// again closes it.
  void closeEvent(QCloseEvent* event) override;
  bool event(QEvent* event) override;

 private:
  using Place = StageBar::Place;
  void choose_book();
  void new_book();
  void sample_book();
  void import_bundle();
  void new_trial(const Plan& start);
  void take_trial(int number);
  /// Reads the list of trials, unless it stands as it was read.
  void show_book();
  void take(Result<std::unique_ptr<Session>> session);
  void build();
  void listen();
  void finish_typing();
  void say(const QString& note);
  [[nodiscard]] QString folder() const;
  void make_screens();
  void drop_screens();
  void go(Place place);
  void show_head();
  /// While somebody tastes nothing of the trial, the book or the way through it is on screen: Taste has its own head.
  void show_bar(bool shown);
  void enter_page();
  void ask_who_tastes();
  void taste_as(int index);
  void type_in_for(int index);
  /// Prints for the bench (of one sitting), or with 0 the tasters' score sheets.
  void show_prints(int sitting);

  Services services_;
  Look look_;
  Style& style_ = look_.style;  ///< what the screens refer to
  BookPrompts prompts_ = book_dialogs();
  std::filesystem::path soon_;  ///< to be opened after the first frame; empty: none
  QString note_;                ///< what Start says of the book
  std::unique_ptr<Session> session_;
  std::optional<Ticket> listed_;  ///< what was last handed over when the list was read; none: to be read
  Subscription kept_, changes_;
  QStackedWidget* pages_ = nullptr;
  QWidget* head_line_ = nullptr;
  StartScreen* start_ = nullptr;
  TrialAnswers* answers_ = nullptr;
  std::shared_ptr<FindingsShelf> shelf_;
  WindowHead* head_ = nullptr;
  KeptStrip* strip_ = nullptr;
  StageBar* bar_ = nullptr;
  PlanScreen* plan_ = nullptr;
  BrewScreen* brew_ = nullptr;
  WhoTastes* who_ = nullptr;
  TasteScreen* taste_ = nullptr;
  PaperScreen* paper_ = nullptr;
  int typing_for_ = -1;  ///< whose paper sheets, as WhoTastes counts
  FindingsScreen* findings_ = nullptr;
  ReportScreen* report_ = nullptr;
  PrintsScreen* prints_ = nullptr;
  Place place_ = Place::trials;
  int tasting_ = -1;  ///< who tastes, by their place in the plan
  bool closing_anyway_ = false;
};

}  // namespace likeleaf::ui
