#pragma once

namespace likeleaf {

/// One function object of several lambdas, for std::visit.
template <class... F>
struct Overload : F... {
  using F::operator()...;
};
template <class... F>
Overload(F...) -> Overload<F...>;

}  // namespace likeleaf
