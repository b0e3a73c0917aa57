#pragma once
// Which values of the sheet in hand are on disk.
#include <cstdint>
#include <map>
#include <string>

#include "core/session/news.h"
#include "ui/widgets/keep.h"

namespace likeleaf::ui {

/// A value is soft from the moment it is sent until a Kept notice covers its ticket; when the disk refuses, it and what
/// waits behind it are marked until a retry goes through.
class Keeping {
 public:
  void sent(const std::string& what, Ticket ticket) {
    // Ticket 0 says that nothing had to be kept: what waits under this name still waits.
    if (ticket != 0) waiting_[what] = ticket;
  }
  void hear(const Kept& news) {
    failed_ = news.not_kept.has_value();
    if (!failed_) std::erase_if(waiting_, [&](const auto& one) { return one.second <= news.up_to; });
  }
  void forget() { waiting_.clear(); }
  [[nodiscard]] Keep of(const std::string& what) const {
    if (!waiting_.contains(what)) return Keep::kept;
    return failed_ ? Keep::failed : Keep::waiting;
  }

 private:
  std::map<std::string, Ticket> waiting_;
  bool failed_ = false;
};

}  // namespace likeleaf::ui
