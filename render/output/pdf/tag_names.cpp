#include "output/pdf/tag_names.hpp"

#include <stdexcept>

namespace wayfolio::output {

const char* tag_of(frame::Role role) {
    using frame::Role;
    switch (role) {
        case Role::Section:
            return "Sect";
        case Role::Heading1:
            return "H1";
        case Role::Heading2:
            return "H2";
        case Role::Heading3:
            return "H3";
        case Role::Paragraph:
            return "P";
        case Role::List:
            return "L";
        case Role::ListItem:
            return "LI";
        case Role::ListLabel:
            return "Lbl";
        case Role::ListBody:
            return "LBody";
        case Role::Table:
            return "Table";
        case Role::TableHead:
            return "THead";
        case Role::TableBody:
            return "TBody";
        case Role::TableRow:
            return "TR";
        case Role::HeadCell:
            return "TH";
        case Role::DataCell:
            return "TD";
        case Role::Figure:
            return "Figure";
        case Role::Caption:
            return "Caption";
        case Role::Note:
            return "Note";
        case Role::Span:
            return "Span";
        case Role::Plain:
        case Role::Artifact:
        case Role::LinkText:
            break;
    }
    throw std::logic_error("this role has no structure type of its own");
}

const char* marking_of(const std::string& type) { return type == "Link" ? "Reference" : type.c_str(); }

bool holds_only_elements(frame::Role role) {
    using frame::Role;
    return role == Role::List || role == Role::ListItem || role == Role::Table || role == Role::TableHead ||
           role == Role::TableBody || role == Role::TableRow;
}

}  // namespace wayfolio::output
