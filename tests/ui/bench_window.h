#pragma once
// The whole window on a book in a folder of its own, brought to one of its views; and who walks over it.
#include <QAbstractButton>
#include <QApplication>
#include <QtTest>
#include <functional>
#include <memory>
#include <ostream>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "tests/core/store/bench_book.h"
#include "ui/window/main_window.h"
#include "ui/window/qt_dispatcher.h"

namespace likeleaf::test {

class BenchWindow {
 public:
  BenchWindow();
  [[nodiscard]] ui::MainWindow& window() { return *window_; }
  template <class T>
  T* child(const QString& name) {
    for (auto* found : window_->findChildren<T*>(name))
      if (found->isVisible()) return found;
    throw std::runtime_error("no " + name.toStdString() + " to be seen");
  }
  void click(const QString& button);
  void settle();
  /// The invented sample with its three finished trials.
  void open_sample();
  /// A book with the counter's registers and one trial, that far.
  enum class Far { draft, sealed, locked };
  void open(const Plan& plan, Far far);
  /// A book with nothing in it.
  void open_empty();
  [[nodiscard]] std::filesystem::path book() const { return folder_ / "bench.leafbook"; }

 private:
  Folder folder_;
  SystemClock clock_;
  SystemEntropy entropy_;
  ui::QtDispatcher dispatcher_;
  std::unique_ptr<ui::MainWindow> window_;
};

/// A place and state of the window.
struct View {
  std::string name;
  std::function<void(BenchWindow&)> go;
};
inline void PrintTo(const View& view, std::ostream* out) {
  *out << view.name;
}
/// Every screen in every stage.
const std::vector<View>& every_view();

/// What Qt printed since it was made, without what the offscreen platform says of itself.
class Listening {
 public:
  Listening();
  ~Listening();
  Listening(const Listening&) = delete;
  Listening& operator=(const Listening&) = delete;
  [[nodiscard]] static std::vector<std::string> heard();
};

}  // namespace likeleaf::test
