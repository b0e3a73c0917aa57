#pragma once
#include <QMainWindow>
#include <filesystem>
#include <memory>

#include "core/session/session.h"

class QLabel;

namespace likeleaf::ui {

class StartScreen;

/// The window: a head with the book and "kept hh:mm:ss", and the screen of now.
class MainWindow final : public QMainWindow {
  Q_OBJECT
 public:
  explicit MainWindow(const Services& services, QWidget* parent = nullptr);
  ~MainWindow() override;
  /// Opens a book; when it cannot be changed it is opened for reading and that is said. What cannot be opened at all, a
  /// book open elsewhere with its holder named, is said on the start screen, and the book at hand stays.
  void open_book(const std::filesystem::path& book);

 private:
  void choose_book();
  void new_book();
  void sample_book();
  void import_bundle();
  void show_book();
  void take(Result<std::unique_ptr<Session>> session);

  Services services_;
  std::unique_ptr<Session> session_;
  Subscription kept_;
  StartScreen* start_ = nullptr;
  QLabel* book_name_ = nullptr;
  QLabel* kept_note_ = nullptr;
};

}  // namespace likeleaf::ui
