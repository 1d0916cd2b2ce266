#include "produce/json_tree.hpp"

namespace wayfolio::produce {

using evaluate::Json;

Json& JsonTree::put(Json value) {
    if (open_.empty()) return root_ = std::move(value);
    Json& parent = *open_.back();
    if (parent.is_object()) return parent[key_] = std::move(value);
    parent.push_back(std::move(value));
    return parent.back();
}

void JsonTree::open_object() { open_.push_back(&put(Json::object())); }
void JsonTree::close_object() { open_.pop_back(); }
void JsonTree::open_array() { open_.push_back(&put(Json::array())); }
void JsonTree::close_array() { open_.pop_back(); }
void JsonTree::key(std::string_view name) { key_ = name; }
void JsonTree::none() { put(nullptr); }
void JsonTree::truth(bool value) { put(value); }
void JsonTree::count(std::uint64_t value) { put(value); }
void JsonTree::number(double value) { put(value); }
void JsonTree::text(std::string_view value) { put(value); }
void JsonTree::json(const Json& value) { put(value); }

}  // namespace wayfolio::produce
