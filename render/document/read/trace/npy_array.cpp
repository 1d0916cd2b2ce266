#include "document/read/trace/npy_array.hpp"

#include "input/json/json.hpp"
#include "input/problem.hpp"

#include <algorithm>
#include <bit>
#include <charconv>
#include <cstdint>
#include <cstring>
#include <fmt/format.h>
#include <vector>

namespace wayfolio::document {
namespace {

/// The whole number that bytes hold, in either order.
std::uint64_t whole(std::string_view bytes, bool big_endian) {
    std::uint64_t number = 0;
    for (std::size_t i = 0; i < bytes.size(); ++i)
        number = number << 8U | static_cast<unsigned char>(bytes[big_endian ? i : bytes.size() - 1 - i]);
    return number;
}

/// The dictionary of a header, taken apart from its front. Any text that is no such dictionary ends the reading.
class HeaderText {
public:
    explicit HeaderText(std::string_view text) : rest_(text) {}

    std::string_view descr, order;
    std::vector<std::uint64_t> shape;

    [[nodiscard]] bool read() {
        if (!take('{')) return false;
        while (!take('}')) {
            std::string_view key;
            if (!text(key) || !take(':')) return false;
            const bool known = key == "descr" ? text_or_list(descr) : key == "fortran_order" ? word(order) : key == "shape" && tuple();
            if (!known) return false;
            if (!take(',') && !rest_.starts_with('}')) return false;
        }
        skip_blanks();
        return rest_.empty() && !descr.empty() && !order.empty() && has_shape_;
    }

private:
    void skip_blanks() { rest_.remove_prefix(std::min(rest_.find_first_not_of(" \t\n"), rest_.size())); }
    bool take(char letter) {
        skip_blanks();
        if (!rest_.starts_with(letter)) return false;
        rest_.remove_prefix(1);
        skip_blanks();
        return true;
    }
    bool text(std::string_view& into) {
        skip_blanks();
        if (rest_.empty() || (rest_[0] != '\'' && rest_[0] != '"')) return false;
        const std::size_t end = rest_.find(rest_[0], 1);
        if (end == std::string_view::npos) return false;
        into = rest_.substr(1, end - 1);
        rest_.remove_prefix(end + 1);
        return true;
    }
    /// Columns with names are a list of pairs: passed over to its end, to be named as what it is.
    bool text_or_list(std::string_view& into) {
        if (!rest_.starts_with('[')) return text(into);
        const std::size_t end = rest_.find(']');
        if (end == std::string_view::npos) return false;
        into = rest_.substr(0, end + 1);
        rest_.remove_prefix(end + 1);
        return true;
    }
    bool word(std::string_view& into) {
        for (const std::string_view known : {"True", "False"})
            if (rest_.starts_with(known)) {
                into = rest_.substr(0, known.size());
                rest_.remove_prefix(known.size());
                return true;
            }
        return false;
    }
    bool tuple() {
        if (!take('(')) return false;
        while (!take(')')) {
            std::uint64_t number = 0;
            const auto [end, failure] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), number);
            if (failure != std::errc()) return false;
            rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
            shape.push_back(number);
            if (!take(',') && !rest_.starts_with(')')) return false;
        }
        return has_shape_ = true;
    }

    std::string_view rest_;
    bool has_shape_ = false;
};

std::string shape_text(const std::vector<std::uint64_t>& shape) {
    std::string text = "(";
    for (const std::uint64_t size : shape) text += fmt::format("{}{}", text.size() > 1 ? ", " : "", size);
    return text + (shape.size() == 1 ? ",)" : ")");
}

}  // namespace

std::variant<NpyArray, NpyArray::Fault> NpyArray::open(input::ByteSource source) {
    constexpr std::size_t versions_at = magic.size(), size_at = magic.size() + 2, longest_start = size_at + 4, longest_header = 65'536;
    std::string start(longest_start, '\0');
    start.resize(source.read_at(0, start));
    if (start.size() <= size_at) return Fault{"a .npy file that ends in its head", "a header", "is the file whole?"};
    const auto version = static_cast<unsigned>(static_cast<unsigned char>(start[versions_at]));
    if (version < 1 || version > 3) return Fault{fmt::format("version {} of .npy", version), "version 1, 2 or 3", {}};
    const std::size_t size_of_size = version == 1 ? 2 : 4, header_at = size_at + size_of_size;
    const std::uint64_t header_size =
        start.size() < header_at ? source.size : whole(std::string_view(start).substr(size_at, size_of_size), false);
    if (header_size > source.size - std::min(header_at, source.size))
        return Fault{fmt::format("a header of {} bytes in a file of {}", header_size, source.size), "a header that is there",
                     "is the file whole?"};
    if (header_size > longest_header)
        return Fault{fmt::format("a header of {} bytes", header_size), fmt::format("at most {}", longest_header), {}};
    std::string head(header_size, '\0');
    head.resize(source.read_at(header_at, head));
    HeaderText header(head);
    if (!header.read()) return Fault{input::quoted(head), "a header with \"descr\", \"fortran_order\" and \"shape\"", {}};
    const std::string_view type = header.descr;
    if (type != "<f8" && type != ">f8" && type != "<f4" && type != ">f4")
        return Fault{"numbers of type " + input::quoted(type), "\"<f8\", \">f8\", \"<f4\" or \">f4\"",
                     "save a plain array of floating-point numbers"};
    if (header.shape.size() != 2 || header.shape[1] != 2)
        return Fault{"an array of shape " + shape_text(header.shape), "two columns, position and value: shape (n, 2)",
                     header.shape.size() == 2 && header.shape[0] == 2 ? "transpose it" : ""};
    const Form form{type[2] == '8' ? std::size_t{8} : std::size_t{4}, type[0] == '>', header.order == "True"};
    const std::size_t numbers_at = header_at + header_size, numbers = source.size - numbers_at, row_size = 2 * form.number_size;
    if (numbers % row_size != 0 || numbers / row_size != header.shape[0])
        return Fault{fmt::format("{} bytes behind a header that says {} rows of {} bytes", numbers, header.shape[0], row_size),
                     "as many as the header says", "is the file whole?"};
    return NpyArray(std::move(source), numbers_at, header.shape[0], form);
}

void NpyArray::read(std::size_t place, std::span<char> into) const {
    if (source_.read_at(place, into) != into.size()) throw input::InputMissing("a .npy file", "ended while it was read");
}

double NpyArray::number(const char* at) const {
    const bool swapped = form_.big_endian != (std::endian::native == std::endian::big);
    if (form_.number_size == 4) {
        std::uint32_t bits = 0;
        std::memcpy(&bits, at, sizeof bits);
        return static_cast<double>(std::bit_cast<float>(swapped ? __builtin_bswap32(bits) : bits));
    }
    std::uint64_t bits = 0;
    std::memcpy(&bits, at, sizeof bits);
    return std::bit_cast<double>(swapped ? __builtin_bswap64(bits) : bits);
}

void NpyArray::walk(const std::function<void(std::span<const Row>)>& take) const {
    constexpr std::size_t rows_at_a_time = 4096;
    const std::size_t size = form_.number_size, step = form_.column_by_column ? size : 2 * size;
    std::vector<char> first, second;
    std::vector<Row> rows;
    for (std::size_t done = 0; done < rows_; done += rows.size()) {
        rows.resize(std::min(rows_at_a_time, rows_ - done));
        first.resize(rows.size() * step);
        read(numbers_at_ + done * step, first);
        if (form_.column_by_column) {
            second.resize(rows.size() * step);
            read(numbers_at_ + (rows_ + done) * step, second);
        }
        const char *const x = first.data(), *const y = form_.column_by_column ? second.data() : first.data() + size;
        for (std::size_t row = 0; row < rows.size(); ++row) rows[row] = {number(x + row * step), number(y + row * step)};
        take(rows);
    }
}

}  // namespace wayfolio::document
