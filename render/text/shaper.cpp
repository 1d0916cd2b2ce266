#include "text/shaper.hpp"

#include "text/break_lines.hpp"
#include "text/font_set.hpp"
#include "text/shape_line.hpp"
#include "text/signal_stack.hpp"

#include <future>
#include <unordered_map>

namespace wayfolio::text {

namespace {

/// Measuring and drawing ask for the same lines. No report comes near it; whoever draws many lets go of lines by let_go_of_old_lines().
constexpr std::size_t most_lines_kept = 20000;

void write_key(std::string& key, std::span<const Piece> pieces, const TextStyle& style) {
    key.clear();
    const auto add = [&key](auto value) { key.append(reinterpret_cast<const char*>(&value), sizeof value); };
    add(style.size.in(units::point));
    add(style.letter_spacing.in(units::point));
    for (const Piece& piece : pieces) {
        for (const int value : {static_cast<int>(piece.weight), static_cast<int>(piece.slant), int{piece.colour.red},
                                int{piece.colour.green}, int{piece.colour.blue}})
            add(value);
        add(piece.text.size());
        key += piece.text;
    }
}

}  // namespace

struct Shaper::Private {
    std::filesystem::path folder;
    std::vector<FontFile> files = listed_fonts();
    std::shared_future<FontSet> opening;
    [[nodiscard]] const FontSet& fonts() const { return opening.get(); }
    Threads threads = Threads::Several;
    std::unique_ptr<Shaper> beside;
    std::unordered_map<std::string, Line> lines, older_lines;
    std::string key;  ///< of the line that is asked for; kept, since most have been shaped before
};

Shaper::Shaper(std::filesystem::path font_folder, Threads threads) : private_(std::make_unique<Private>()) {
    private_->threads = threads;
    private_->opening = std::async(std::launch::async, [font_folder] {
                             const SignalStack room;
                             return FontSet(font_folder.string());
                         }).share();
    private_->folder = std::move(font_folder);
}
Shaper::Shaper() : private_(std::make_unique<Private>()) {}
Shaper::~Shaper() = default;
Shaper::Shaper(Shaper&&) noexcept = default;
Shaper& Shaper::operator=(Shaper&&) noexcept = default;

const Line& Shaper::kept_line(std::span<const Piece> pieces, const TextStyle& style) const {
    std::string& key = private_->key;
    write_key(key, pieces, style);
    if (const auto known = private_->lines.find(key); known != private_->lines.end()) return known->second;
    if (private_->lines.size() >= most_lines_kept) let_go_of_old_lines();
    if (const auto known = private_->older_lines.find(key); known != private_->older_lines.end())
        return private_->lines.insert(private_->older_lines.extract(known)).position->second;
    return private_->lines.emplace(key, shape_line(private_->fonts(), pieces, style)).first->second;
}

void Shaper::let_go_of_old_lines() const {
    std::swap(private_->lines, private_->older_lines);
    private_->lines.clear();
    if (private_->beside) private_->beside->let_go_of_old_lines();
}

Line Shaper::line(std::span<const Piece> pieces, const TextStyle& style) const { return kept_line(pieces, style); }

Paper Shaper::width(std::span<const Piece> pieces, const TextStyle& style) const { return kept_line(pieces, style).width; }

Paper Shaper::width(std::string_view text, const TextStyle& style, Weight weight, Slant slant) const {
    const Piece piece{std::string(text), weight, slant, {}};
    return width({&piece, 1}, style);
}

std::vector<Line> Shaper::paragraph(std::span<const Piece> pieces, const TextStyle& style, Paper width) const {
    return break_lines(pieces, width, style.letter_spacing, [&](std::span<const Piece> some) { return line(some, style); });
}

Threads Shaper::threads() const { return private_->threads; }

const Shaper* Shaper::beside() const {
    if (private_->threads == Threads::One) return nullptr;
    if (!private_->beside) {
        private_->beside.reset(new Shaper);
        private_->beside->private_->folder = private_->folder;
        private_->beside->private_->opening =
            std::async(std::launch::deferred, [fonts = private_->opening] { return fonts.get().beside(); }).share();
    }
    return private_->beside.get();
}

void* Shaper::cairo_font_face(frame::FaceId face) const { return private_->fonts().cairo_face(face); }

const std::vector<Shaper::FontFile>& Shaper::fonts() const { return private_->files; }
const std::filesystem::path& Shaper::font_folder() const { return private_->folder; }

}  // namespace wayfolio::text
