#include "output/pdf/pages/page_contents.hpp"

#include "output/pdf/packed.hpp"
#include "output/pdf/pages/tag_record.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <stdexcept>

namespace wayfolio::output {

namespace {

constexpr std::string_view before_number = " << /MCID ", after_number = " >> BDC\n";

[[noreturn]] void disagree(const std::string& what) {
    throw std::logic_error("a page does not hold the marked content that was drawn: " + what);
}

}  // namespace

// Cairo spells marked content in one fixed way, each operator on a line of its own, and numbers it from 0 on each page.
std::string with_types_named(std::string_view content, const std::vector<std::string_view>& types) {
    std::string named;
    named.reserve(content.size());
    std::size_t at = 0, number = 0;
    for (std::size_t found; (found = content.find(before_number, at)) != std::string_view::npos; ++number) {
        if (number == types.size()) disagree("more than was drawn");
        const std::string_view type = types[number];
        const std::size_t line = content.rfind('\n', found) + 1;
        const std::string rest = fmt::format("{}{}{}", before_number, number, after_number), expected = "/" + marking_of(type) + rest;
        if (content.substr(line, expected.size()) != expected) disagree(fmt::format("tag {} is not {}", number, type));
        named.append(content, at, line - at);
        named += type == artifact_tag ? "/Artifact BMC\n" : fmt::format("/{}{}", type, rest);
        at = line + expected.size();
    }
    if (number != types.size()) disagree("less than was drawn");
    return named.append(content, at);
}

std::set<std::string> fonts_set(std::string_view content) {
    constexpr std::string_view sets_font = " Tf";
    std::set<std::string> names;
    for (std::size_t found = content.find(sets_font); found != std::string_view::npos; found = content.find(sets_font, found + 1)) {
        const std::size_t name = std::min(content.rfind('/', found), found), end = std::min(content.find(' ', name), found);
        names.emplace(content.substr(name, end - name));
    }
    return names;
}

// Cairo 1.16 writes the content of a page, and last the page itself, which names it, before the next one is drawn.
std::string_view content_in(std::string_view written) {
    constexpr std::string_view names = "/Contents ", begins = "\nstream\n", ends = "\nendstream\n";
    const std::size_t named = written.rfind(names);
    if (named == std::string_view::npos) return {};
    const std::size_t digits = named + names.size(), behind = written.find(' ', digits);
    const std::string object = fmt::format("{} 0 obj\n<< /Length", written.substr(digits, behind - digits));
    const std::size_t found = written.starts_with(object) ? 0 : written.find("\n" + object);
    const std::size_t stream = found == std::string_view::npos ? found : written.find(begins, found);
    const std::size_t end = stream == std::string_view::npos ? stream : written.find(ends, stream);
    return end == std::string_view::npos ? std::string_view() : written.substr(stream + begins.size(), end - stream - begins.size());
}

void PageContents::make_ready(Page& page) {
    page.tried = true;
    page.failed = nullptr;
    try {
        const std::string content = unpacked(page.written);
        page.ready = {packed(with_short_places(with_types_named(content, page.types)), Effort::More), fonts_set(content)};
    } catch (...) {
        page.failed = std::current_exception();
    }
}

void PageContents::add(std::string_view written, std::vector<std::string_view> types) {
    const std::string_view content = content_in(written);
    pages_.push_back({.written = std::string(content), .types = std::move(types), .ready = {}, .failed = nullptr});
    using namespace std::chrono_literals;
    if (threads_ == text::Threads::One || (running_.valid() && running_.wait_for(0s) != std::future_status::ready)) return;
    std::vector<Page*> waiting;
    for (; begun_ < pages_.size(); ++begun_) waiting.push_back(&pages_[begun_]);
    running_ = std::async(std::launch::async, [waiting = std::move(waiting)] {
        for (Page* page : waiting) make_ready(*page);
    });
}

std::vector<PageContent> PageContents::take(const std::vector<std::string>& contents) {
    if (running_.valid()) running_.get();
    share_out(contents.size(), threads_, [&](std::size_t i) {
        Page& page = pages_.at(i);
        if (page.tried && page.written == contents[i]) return;
        page.written = contents[i];
        make_ready(page);
    });
    std::vector<PageContent> all;
    for (Page& page : pages_) {
        if (page.failed) std::rethrow_exception(page.failed);
        all.push_back(std::move(page.ready));
    }
    return all;
}

}  // namespace wayfolio::output
