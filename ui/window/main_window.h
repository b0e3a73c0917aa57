#pragma once
#include <QMainWindow>
#include <filesystem>
#include <memory>

#include "core/base/style.h"
#include "core/session/session.h"
#include "ui/window/stage_bar.h"

class QLabel;
class QStackedWidget;

namespace likeleaf::ui {

class BrewScreen;
class FindingsScreen;
class PlanScreen;
class ReportScreen;
class StartScreen;
class TasteScreen;
class WhoTastes;

/// The window: a head with the trial, the way through it, the book and "kept hh:mm:ss"; under it the screen of now.
/// While somebody tastes, trial, question and book leave head and title.
class MainWindow final : public QMainWindow {
  Q_OBJECT
 public:
  MainWindow(const Services& services, const Style& style, QWidget* parent = nullptr);
  ~MainWindow() override;
  /// Opens a book; when it cannot be changed it is opened for reading and that is said. What cannot be opened at all, a
  /// book open elsewhere with its holder named, is said on the start screen, and the book at hand stays.
  void open_book(const std::filesystem::path& book);

 private:
  using Place = StageBar::Place;
  void choose_book();
  void new_book();
  void sample_book();
  void import_bundle();
  void new_trial(const Plan& start);
  void take_trial(int number);
  void show_book();
  void take(Result<std::unique_ptr<Session>> session);
  void make_screens();
  void drop_screens();
  void go(Place place);
  void show_head();
  void ask_who_tastes();
  void taste_as(int index);

  Services services_;
  Style style_;
  std::unique_ptr<Session> session_;
  Subscription kept_, changes_;
  QStackedWidget* pages_ = nullptr;
  StartScreen* start_ = nullptr;
  StageBar* bar_ = nullptr;
  QLabel *title_ = nullptr, *subtitle_ = nullptr, *book_name_ = nullptr, *kept_note_ = nullptr;
  PlanScreen* plan_ = nullptr;
  BrewScreen* brew_ = nullptr;
  WhoTastes* who_ = nullptr;
  TasteScreen* taste_ = nullptr;
  FindingsScreen* findings_ = nullptr;
  ReportScreen* report_ = nullptr;
  Place place_ = Place::trials;
};

}  // namespace likeleaf::ui
