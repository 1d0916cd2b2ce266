#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace wayfolio::certificate {

/// XML text, element after element, indented by two. Words are escaped here and nowhere else.
class XmlWriter {
public:
    using Attributes = std::vector<std::pair<std::string_view, std::string>>;

    /// An element, open for as long as this lives.
    class Element {
    public:
        ~Element() { writer_.close(); }
        Element(const Element&) = delete;
        Element& operator=(const Element&) = delete;

    private:
        friend class XmlWriter;
        explicit Element(XmlWriter& writer) : writer_(writer) {}
        XmlWriter& writer_;
    };

    [[nodiscard]] Element open(std::string_view name, const Attributes& attributes = {});
    /// An element with words; white space round them is left out, as the structure's strings have none.
    void put(std::string_view name, std::string_view words, const Attributes& attributes = {});
    void comment(std::string_view words);

    /// All that was written.
    [[nodiscard]] const std::string& text() const { return text_; }

private:
    void close();
    void begin(std::string_view name, const Attributes& attributes);
    void indent() { text_.append(2 * open_.size(), ' '); }

    std::string text_;
    std::vector<std::string> open_;
};

/// Words without the white space round them.
std::string_view trimmed(std::string_view words);

}  // namespace wayfolio::certificate
