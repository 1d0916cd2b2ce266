#include "conformance/checked_file.hpp"

#include <qpdf/QPDFNameTreeObjectHelper.hh>

namespace wayfolio::conformance {

bool leads_to_page(const CheckedFile& subject, Handle destination) {
    if (destination.isDictionary()) destination = destination.getKey("/D");
    if (!destination.isArray() || destination.getArrayNItems() == 0) return false;
    return subject.pages.contains(destination.getArrayItem(0).getObjGen());
}

Handle named_destination(const CheckedFile& subject, Handle name) {
    const std::string text = name.isString() ? name.getStringValue() : name.getName().substr(1);
    Handle found = Handle::newNull(), names = subject.root().getKey("/Names"), old = subject.root().getKey("/Dests");
    if (names.isDictionary() && names.getKey("/Dests").isDictionary())
        QPDFNameTreeObjectHelper(names.getKey("/Dests"), subject.file).findObject(text, found);
    if (found.isNull() && old.isDictionary()) found = old.getKey("/" + text);
    return found;
}

}  // namespace wayfolio::conformance
