#pragma once
#include "output/pdf/qpdf.hpp"
#include "output/pdf/pages/page_contents.hpp"
#include "output/pdf/pages/tag_record.hpp"
#include "output/pdf/write_pdf.hpp"
#include "text/shaper.hpp"

#include <optional>
#include <set>

namespace wayfolio::output {

/// Where a font cannot be written, for want of memory say, Cairo says nothing, leaves it out, and its text is lost.
/// @param set names of fonts that the content of a page sets  @param there names of those that the page brings with it
/// @throws files::OutputFailed when a font is set that is not there
void require_fonts(const std::set<std::string>& set, const std::set<std::string>& there);

/// Pages as Cairo draws them, with what Cairo cannot say of them. Trap: nothing may count or add objects in Cairo's file; libqpdf then
/// reads all of it, and most of that is a structure tree which nobody wants.
class CairoPages {
public:
    /// @throws files::OutputFailed when Cairo reports an error
    /// @throws std::logic_error for text directly in a table, row or list, or a link inside an artifact
    CairoPages(std::vector<frame::Frame> pages, const text::Shaper& shaper);

    /// The pages with nothing on them but their bookmarks: what was drawn is let go of, for a long table holds hundreds of megabytes.
    [[nodiscard]] const std::vector<frame::Frame>& frames() const { return frames_; }

    /// What was drawn, in its order; begins with the Document.
    [[nodiscard]] const TagRecords& records() const { return records_; }
    /// Of the objects of the pages, and of the node that holds all of them.
    [[nodiscard]] const std::vector<int>& numbers() const { return numbers_; }
    [[nodiscard]] int tree_number() const { return tree_number_; }
    /// After those of all Cairo's objects.
    [[nodiscard]] int next_number() const { return next_number_; }
    /// How many may pack it.
    [[nodiscard]] text::Threads threads() const { return threads_; }
    /// What Cairo calls itself.
    [[nodiscard]] const std::string& producer() const { return producer_; }

    /// Puts the pages, and all that they lead to, among the objects of a new file; Cairo's is let go of.
    /// @param entries what each page's dictionary says beside what Cairo drew
    /// @throws std::logic_error when a page does not hold the marked content that was drawn
    void move_to(Objects& objects, const std::vector<std::string>& entries);

private:
    [[nodiscard]] std::vector<PageContent> contents();

    text::Threads threads_;
    std::vector<frame::Frame> frames_;
    TagRecords records_;
    PageContents contents_;
    std::string bytes_;
    std::optional<QPDF> file_;  ///< of the bytes, which must outlive it
    std::vector<Handle> pages_;
    std::vector<int> numbers_;
    int tree_number_ = 0, next_number_ = 0;
    std::string producer_;
};

}  // namespace wayfolio::output
