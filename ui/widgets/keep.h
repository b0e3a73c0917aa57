#pragma once

namespace likeleaf::ui {

/// Where a value on screen stands with the disk: on it, on its way, or refused by it and still only here.
enum class Keep { kept, waiting, failed };

}  // namespace likeleaf::ui
