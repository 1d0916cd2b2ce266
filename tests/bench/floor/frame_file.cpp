#include "bench/floor/frame_file.hpp"

#include "frame/overloaded.hpp"

#include <cstring>
#include <stdexcept>
#include <type_traits>

namespace wayfolio::bench {
namespace {

enum class Kind : std::uint8_t { Group, Path, Run, Nothing };

class Packer {
public:
    std::string bytes;

    template <typename Value>
    void plain(const Value& value) {
        static_assert(std::is_trivially_copyable_v<Value>);
        bytes.append(reinterpret_cast<const char*>(&value), sizeof value);
    }
    template <typename Value>
    void list(const std::vector<Value>& values) {
        plain(values.size());
        bytes.append(reinterpret_cast<const char*>(values.data()), values.size() * sizeof(Value));
    }
    void text(std::string_view value) {
        plain(value.size());
        bytes += value;
    }
    void items(const std::vector<frame::Item>& all) {
        plain(all.size());
        for (const frame::Item& item : all) std::visit([&](const auto& one) { add(one); }, item);
    }

private:
    void add(const frame::Group& group) {
        plain(Kind::Group);
        plain(group.clip.value());
        items(group.items);
    }
    void add(const frame::Path& path) {
        plain(Kind::Path);
        list(path.steps);
        plain(path.fill);
        plain(path.stroke.has_value());
        if (!path.stroke) return;
        plain(path.stroke->colour);
        plain(path.stroke->width);
        list(path.stroke->dash);
        plain(path.stroke->cap);
        plain(path.stroke->join);
    }
    void add(const frame::GlyphRun& run) {
        plain(Kind::Run);
        plain(run.face);
        plain(run.size);
        plain(run.colour);
        text(run.text);
        list(run.glyphs);
        list(run.clusters);
        plain(run.rotated);
    }
    void add(const frame::Link&) { plain(Kind::Nothing); }
    void add(const frame::Bookmark&) { plain(Kind::Nothing); }
    void add(const frame::Image&) { throw std::invalid_argument("pages with pictures are not for the floor: it has no painter of them"); }
};

class Unpacker {
public:
    explicit Unpacker(std::string_view bytes) : rest_(bytes) {}

    template <typename Value>
    Value plain() {
        Value value{};
        std::memcpy(static_cast<void*>(&value), taken(sizeof value).data(), sizeof value);
        return value;
    }
    template <typename Value>
    std::vector<Value> list() {
        std::vector<Value> values(plain<std::size_t>());
        if (!values.empty())
            std::memcpy(static_cast<void*>(values.data()), taken(values.size() * sizeof(Value)).data(), values.size() * sizeof(Value));
        return values;
    }
    std::string text() { return std::string(taken(plain<std::size_t>())); }
    std::vector<frame::Item> items() {
        std::vector<frame::Item> all(plain<std::size_t>());
        for (frame::Item& one : all) one = item();
        return all;
    }

private:
    std::string_view taken(std::size_t count) {
        if (count > rest_.size()) throw std::out_of_range("half a file of pages");
        const std::string_view some = rest_.substr(0, count);
        rest_.remove_prefix(count);
        return some;
    }
    frame::Item item() {
        switch (plain<Kind>()) {
            case Kind::Group: {
                frame::Group group;
                group.clip = plain<std::optional<frame::Rect>>();
                group.items = items();
                return group;
            }
            case Kind::Path: return path();
            case Kind::Run: return run();
            case Kind::Nothing: break;
        }
        return frame::Group{};
    }
    frame::Path path() {
        frame::Path path{.steps = list<frame::PathStep>(), .fill = plain<std::optional<frame::Colour>>(), .stroke = {}};
        if (!plain<bool>()) return path;
        path.stroke = {.colour = plain<frame::Colour>(), .width = plain<frame::Paper>(), .dash = list<frame::Paper>()};
        path.stroke->cap = plain<frame::Cap>();
        path.stroke->join = plain<frame::Join>();
        return path;
    }
    frame::GlyphRun run() {
        frame::GlyphRun run;
        run.face = plain<frame::FaceId>();
        run.size = plain<frame::Paper>();
        run.colour = plain<frame::Colour>();
        run.text = text();
        run.glyphs = list<frame::Glyph>();
        run.clusters = list<frame::Cluster>();
        run.rotated = plain<bool>();
        return run;
    }

    std::string_view rest_;
};

}  // namespace

std::string packed(const std::vector<frame::Frame>& pages, const std::vector<std::string>& font_files) {
    Packer packer;
    packer.plain(font_files.size());
    for (const std::string& file : font_files) packer.text(file);
    packer.plain(pages.size());
    for (const frame::Frame& page : pages) {
        packer.plain(page.width);
        packer.plain(page.height);
        packer.items(page.items);
    }
    return packer.bytes;
}

Unpacked unpacked(std::string_view bytes) {
    Unpacker unpacker(bytes);
    Unpacked all;
    all.font_files.resize(unpacker.plain<std::size_t>());
    for (std::string& file : all.font_files) file = unpacker.text();
    all.pages.resize(unpacker.plain<std::size_t>());
    for (frame::Frame& page : all.pages) {
        page.width = unpacker.plain<frame::Paper>();
        page.height = unpacker.plain<frame::Paper>();
        page.items = unpacker.items();
    }
    return all;
}

}  // namespace wayfolio::bench
