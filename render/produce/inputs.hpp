#pragma once
#include "evaluate/written/json_text.hpp"
#include "produce/produce.hpp"

#include <memory>
#include <optional>

/// What goes into a drawing, its fingerprint, and how a PDF carries it.
namespace wayfolio::produce {

/// What is drawn: the report, or one figure, of a series or of the whole document.
struct Product {
    std::string series, figure;  ///< `series` empty: of the whole document; both: the report
    [[nodiscard]] bool is_report() const { return figure.empty(); }
};

/// Names of the files that a PDF carries, beside the document's side files, which keep their own.
namespace kept {
inline constexpr std::string_view document = "wayfolio-result.json", evaluation = "wayfolio-evaluation.json",
                                  inputs = "wayfolio-inputs.json", certificate = "wayfolio-certificate-draft.xml";
/// "wayfolio-layout-1.json" is the layout, -2 what it extends, and so on.
std::string layout(std::size_t number);
}  // namespace kept

/// A document as the customer may have it.
struct CustomerVersion {
    std::optional<document::Document> reduced;  ///< without what it marks internal, if it marks anything
    bool is_reduced = false;                   ///< made so now or before
    [[nodiscard]] const document::Document& of(const document::Document& given) const { return reduced ? *reduced : given; }
};
CustomerVersion customer_version(const document::Document& document);

/// What something is drawn from: what is drawn, then SHA-256 of the document (as the customer may have it), side files, layouts and
/// fonts, and the versions of program and libraries. Its keys are described in wayfolio-record(5).
struct InputList {
    std::string list;         ///< JSON
    std::string fingerprint;  ///< SHA-256 of `list`
    std::string in_line;      ///< "wayfolio-result.json sha256:…; cairo 1.16.0": the list in one line, for readers of metadata
};

struct Inputs : InputList {
    std::shared_ptr<const CustomerVersion> customer;  ///< the list speaks of it
};

Inputs inputs_of(const Drawing& drawing, const Product& product);

/// The same for many products of one document: what does not depend on the product is made once.
class InputsOfMany {
public:
    explicit InputsOfMany(const Drawing& drawing);
    [[nodiscard]] Inputs of(const Product& product) const;

private:
    std::shared_ptr<const CustomerVersion> customer_;
    std::string paper_;
    evaluate::Json list_;
};

/// The document as the customer may have it: what is drawn, and what a PDF carries.
const document::Document& customer_document(const Drawing& drawing, const Inputs& inputs);

/// What stands in the foot: the first 16 digits.
std::string short_form(const std::string& fingerprint);

/// The evaluation of the document as the customer may have it.
std::string kept_evaluation(const Drawing& drawing, const Inputs& inputs);

/// Document, side files, layouts, list and evaluation, byte for byte.
/// @throws input::InputRejected for a side file whose name begins with "wayfolio-"
std::vector<output::Attachment> attachments_of(const Drawing& drawing, const Inputs& inputs);

/// The draft of a machine-readable certificate, where the layout asks for it: a report carries it too.
std::optional<output::Attachment> certificate_attachment(const Drawing& drawing);

/// When what is drawn was issued, or else measured; it counts as made then.
std::string created(const document::Document& document);

/// What a PDF or SVG says of itself.
output::Metadata metadata_of(const Drawing& drawing, const Inputs& inputs, const std::string& title, const std::string& subject);

/// An SVG's metadata on one line: fingerprint, list, and the numbers of the series that it shows, or of the environment, with their units,
/// to nine digits; a list of things of one kind is written by column.
std::string shown_data(const Drawing& drawing, const Inputs& inputs, const Product& figure);

}  // namespace wayfolio::produce
