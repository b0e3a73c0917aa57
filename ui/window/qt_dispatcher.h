#pragma once
// The writer's news, queued into the window's event loop.
#include <QObject>

#include "core/session/dispatcher.h"

namespace likeleaf::ui {

class QtDispatcher final : public Dispatcher {
 public:
  void post(std::function<void()> work) override {
    QMetaObject::invokeMethod(
        &here_, [work = std::move(work)] { work(); }, Qt::QueuedConnection);
  }

 private:
  QObject here_;
};

}  // namespace likeleaf::ui
