#pragma once
// A disk without room, by a limit on the size of files.
#include <sys/resource.h>

#include <csignal>

namespace likeleaf::test {

/// While it lives, no file of this process may grow over its size.
class FullDisk {
 public:
  explicit FullDisk(rlim_t bytes) {
    before_ = std::signal(SIGXFSZ, SIG_IGN);
    getrlimit(RLIMIT_FSIZE, &old_);
    const rlimit low{bytes, old_.rlim_max};
    setrlimit(RLIMIT_FSIZE, &low);
  }
  ~FullDisk() {
    setrlimit(RLIMIT_FSIZE, &old_);
    std::signal(SIGXFSZ, before_);
  }
  FullDisk(const FullDisk&) = delete;
  FullDisk& operator=(const FullDisk&) = delete;

 private:
  rlimit old_{};
  void (*before_)(int) = nullptr;
};

}  // namespace likeleaf::test
