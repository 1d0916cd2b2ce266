#include "conformance/read/structure.hpp"

namespace wayfolio::conformance {

namespace {

constexpr std::size_t most_elements = 1'000'000;
constexpr int most_depth = 500;

class TreeReader {
public:
    TreeReader(const CheckedFile& subject, Structure& into)
        : subject_(subject), into_(into), roles_(subject.root().getKey("/StructTreeRoot").getKey("/RoleMap")) {
        int number = 0;
        for (Handle page : subject.file.getAllPages()) pages_[page.getObjGen()] = number++;
    }
    void kids(Handle of, int parent, Handle page, int depth) {
        Handle kids = of.getKey("/K");
        for (Handle kid : kids.isArray() ? kids.getArrayAsVector() : std::vector<Handle>{kids}) one(kid, of, parent, page, depth);
    }

private:
    void one(Handle kid, Handle of, int parent, Handle page, int depth) {
        if (kid.isInteger()) return mark(page, kid, parent);
        if (!kid.isDictionary() || depth > most_depth || into_.elements.size() > most_elements) return;
        if (kid.hasKey("/S")) return element(kid, of, parent, page, depth);
        if (kid.getKey("/MCID").isInteger()) mark(kid.hasKey("/Pg") ? kid.getKey("/Pg") : page, kid.getKey("/MCID"), parent);
    }
    void element(Handle object, Handle of, int parent, Handle page, int depth) {
        const int place = static_cast<int>(into_.elements.size());
        if (object.isIndirect() && !seen_.insert(object.getObjGen()).second)
            return subject_.fault("structure-parents", "object " + std::to_string(object.getObjectID()), "stands in the structure twice");
        std::string type = object.getKey("/S").getName();
        if (roles_.isDictionary() && roles_.getKey(type).isName()) type = roles_.getKey(type).getName();
        const bool spoken = has_text(object, "/Alt") || has_text(object, "/ActualText");
        into_.elements.push_back({object, type.substr(1), parent, {}, spoken});
        if (parent >= 0) into_.elements[static_cast<std::size_t>(parent)].kids.push_back(place);
        if (object.getKey("/P").getObjGen() != of.getObjGen())
            subject_.fault("structure-parents", "element " + std::to_string(place) + ", " + type, "/P is not its parent");
        kids(object, place, object.hasKey("/Pg") ? object.getKey("/Pg") : page, depth + 1);
    }
    void mark(Handle page, Handle number, int element) {
        const auto known = pages_.find(page.getObjGen());
        if (known == pages_.end()) return;
        if (element < 0)
            return subject_.fault("content-tagged", "structure", "marked content " + number.unparse() +
                " stands in the root, in no element");
        into_.marks[{known->second, number.getIntValueAsInt()}].push_back(element);
        const auto& marks = subject_.contents[static_cast<std::size_t>(known->second)].marks;
        const auto content = marks.find(number.getIntValueAsInt());
        if (content != marks.end() && content->second.shows_text)
            into_.elements[static_cast<std::size_t>(element)].has_words = true;
    }
    static bool has_text(Handle object, const char* key) {
        return object.getKey(key).isString() && !object.getKey(key).getUTF8Value().empty();
    }

    const CheckedFile& subject_;
    Structure& into_;
    Handle roles_;
    std::map<QPDFObjGen, int> pages_;
    std::set<QPDFObjGen> seen_;
};

}  // namespace

Structure structure_of(const CheckedFile& subject) {
    Structure structure;
    Handle root = subject.root().getKey("/StructTreeRoot");
    if (root.isDictionary()) TreeReader(subject, structure).kids(root, -1, Handle::newNull(), 0);
    // Parents stand before their kids.
    for (auto element = structure.elements.rbegin(); element != structure.elements.rend(); ++element)
        if (element->has_words && element->parent >= 0) structure.elements[static_cast<std::size_t>(element->parent)].has_words = true;
    return structure;
}

Handle attribute(const Element& element, const char* owner, const char* key) {
    Handle object = element.object, attributes = object.getKey("/A");
    for (Handle one : attributes.isArray() ? attributes.getArrayAsVector() : std::vector<Handle>{attributes})
        if (one.isDictionary() && one.getKey("/O").isNameAndEquals(owner) && one.hasKey(key)) return one.getKey(key);
    return Handle::newNull();
}

}  // namespace wayfolio::conformance
