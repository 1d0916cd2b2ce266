#include "certificate/drafting.hpp"

#include <algorithm>

namespace wayfolio::certificate {
namespace {

/// Whether a contact is an address of electronic mail: one word with one "@" inside.
bool is_mail(std::string_view contact) {
    const std::string_view words = trimmed(contact);
    return words.find_first_of(" \t\r\n") == std::string_view::npos && std::ranges::count(words, '@') == 1 && words.front() != '@' &&
           words.back() != '@';
}

/// An address in lines says not which line is the street: the structure's "further" takes it as it is.
void put_location(Drafting& drafting, const document::Party& party, const std::string& country) {
    const auto location = drafting.xml.open("dcc:location");
    if (!country.empty()) drafting.xml.put("dcc:countryCode", country);
    std::vector<Phrase> lines;
    for (const std::string& line : party.address) lines.push_back(given(line));
    put_lines(drafting.xml, "dcc:further", lines);
    if (!is_stated(party.contact) || is_mail(party.contact)) return;
    const auto further = drafting.xml.open("dcc:further");
    put_name(drafting.xml, ours("Contact"));
    drafting.xml.put("dcc:content", party.contact);
}

/// Name, mail and location in an element that is open.
void put_contact(Drafting& drafting, const document::Party& party, const std::string& country, const std::string& whose,
                 const std::string& pointer) {
    if (is_stated(party.name)) put_name(drafting.xml, given(party.name));
    else drafting.lacks("name of the " + whose, pointer + "/name");
    if (is_stated(party.contact) && is_mail(party.contact)) drafting.xml.put("dcc:eMail", party.contact);
    const bool address = std::ranges::any_of(party.address, is_stated);
    const bool contact = is_stated(party.contact) && !is_mail(party.contact);
    if (!address) drafting.lacks("address of the " + whose, pointer + "/address");
    if (address || contact || !country.empty()) put_location(drafting, party, country);
}

}  // namespace

void put_laboratory(Drafting& drafting) {
    const auto& laboratory = drafting.document.job.laboratory;
    if (!laboratory) return drafting.lacks("laboratory", "/job/laboratory");
    const auto element = drafting.xml.open("dcc:calibrationLaboratory");
    const auto contact = drafting.xml.open("dcc:contact");
    put_contact(drafting, *laboratory, laboratory->country, "laboratory", "/job/laboratory");
}

void put_persons(Drafting& drafting) {
    const auto& people = drafting.document.job.people;
    const auto named = [](const document::Person& person) { return is_stated(person.name); };
    if (std::ranges::none_of(people, named)) return drafting.lacks("persons responsible", "/job/people");
    const auto list = drafting.xml.open("dcc:respPersons");
    for (const document::Person& one : people) {
        if (!named(one)) continue;
        const auto responsible = drafting.xml.open("dcc:respPerson");
        {
            const auto person = drafting.xml.open("dcc:person");
            put_name(drafting.xml, given(one.name));
        }
        if (is_stated(one.role)) drafting.xml.put("dcc:role", one.role);
    }
}

void put_customer(Drafting& drafting) {
    const auto& customer = drafting.document.job.customer;
    if (!customer) return drafting.lacks("customer", "/job/customer");
    const auto element = drafting.xml.open("dcc:customer");
    put_contact(drafting, *customer, "", "customer", "/job/customer");
}

}  // namespace wayfolio::certificate
