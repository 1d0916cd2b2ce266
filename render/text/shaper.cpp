#include "text/shaper.hpp"

#include "text/break_lines.hpp"
#include "text/font_set.hpp"
#include "text/kept.hpp"
#include "text/number_lines.hpp"
#include "text/shape_line.hpp"
#include "text/signal_stack.hpp"

#include <future>

namespace wayfolio::text {

namespace {

/// Measuring and drawing ask for the same lines, and for the same paragraphs, fourteen times each in a report. No report comes near these
/// numbers; whoever draws many lets go by let_go_of_old_lines().
constexpr std::size_t most_lines_kept = 20000, most_paragraphs_kept = 5000;

template <class Plain>
void add_to(std::string& key, const Plain& value) {
    key.append(reinterpret_cast<const char*>(&value), sizeof value);
}

void write_key(std::string& key, std::span<const Piece> pieces, const TextStyle& style) {
    key.clear();
    add_to(key, style.size.in(units::point));
    add_to(key, style.letter_spacing.in(units::point));
    for (const Piece& piece : pieces) {
        for (const int value : {static_cast<int>(piece.weight), static_cast<int>(piece.slant), int{piece.colour.red},
                                int{piece.colour.green}, int{piece.colour.blue}})
            add_to(key, value);
        add_to(key, piece.text.size());
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
    Kept<Line> lines{most_lines_kept};
    Kept<std::vector<Line>> paragraphs{most_paragraphs_kept};
    NumberLines numbers;
    std::string key;  ///< of what is asked for; kept, since most has been shaped before
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
    const auto shape = [&](std::span<const Piece> some, const TextStyle& look) { return shape_line(private_->fonts(), some, look); };
    if (const Line* const number = private_->numbers.line(pieces, style, shape)) return *number;
    std::string& key = private_->key;
    write_key(key, pieces, style);
    return private_->lines.get(key, [&] { return shape(pieces, style); });
}

void Shaper::let_go_of_old_lines() const {
    private_->lines.let_go_of_old();
    private_->paragraphs.let_go_of_old();
    if (private_->beside) private_->beside->let_go_of_old_lines();
}

Line Shaper::line(std::span<const Piece> pieces, const TextStyle& style) const { return kept_line(pieces, style); }

Paper Shaper::width(std::span<const Piece> pieces, const TextStyle& style) const { return kept_line(pieces, style).width; }

Paper Shaper::width(std::string_view text, const TextStyle& style, Weight weight, Slant slant) const {
    const Piece piece{std::string(text), weight, slant, {}};
    return width({&piece, 1}, style);
}

std::vector<Line> Shaper::paragraph(std::span<const Piece> pieces, const TextStyle& style, Paper width) const {
    std::string& key = private_->key;
    write_key(key, pieces, style);
    add_to(key, width.in(units::point));
    return private_->paragraphs.get(key, [&] {
        // What a paragraph is cut from is not kept: the paragraph is.
        return break_lines(pieces, width, style.letter_spacing,
                           [&](std::span<const Piece> some) { return shape_line(private_->fonts(), some, style); });
    });
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
