#pragma once
#include <string>
#include <unordered_map>
#include <utility>

namespace wayfolio::text {

/// Values by what they were made of. Two generations: letting go takes those that nobody asked for since it was done last.
template <class Value>
class Kept {
public:
    /// @param most so many of one generation; then the older one is let go of
    explicit Kept(std::size_t most) : most_(most) {}

    /// What was made of `key` before, else what `make` makes now; stands until it is let go of twice.
    template <class Make>
    const Value& get(const std::string& key, const Make& make) {
        if (const auto known = young_.find(key); known != young_.end()) return known->second;
        if (young_.size() >= most_) let_go_of_old();
        if (const auto known = old_.find(key); known != old_.end()) return young_.insert(old_.extract(known)).position->second;
        return young_.emplace(key, make()).first->second;
    }

    void let_go_of_old() {
        std::swap(young_, old_);
        young_.clear();
    }

private:
    std::size_t most_;
    std::unordered_map<std::string, Value> young_, old_;
};

}  // namespace wayfolio::text
