#include "base/xml_text.h"

#include <doctest/doctest.h>

using namespace deckquire;

namespace {

std::string first_message(const std::string& text) {
  Findings findings;
  const XmlText xml(text, "a.xml", findings);
  CHECK(static_cast<bool>(xml.root()) == findings.empty());
  return findings.empty() ? "" : to_line(findings.sorted().front());
}

std::string at(const Place& p) {
  return std::to_string(p.line) + ":" + std::to_string(p.column);
}

}  // namespace

TEST_CASE("xml: elements, attributes, values and text know their line and column") {
  Findings findings;
  const XmlText xml(
      "<?xml version=\"1.0\"?>\n<a>\n  <b été='x' c=\"&amp;y\">ß text</b>\r\n<d/></a>", "a.xml",
      findings);
  REQUIRE(findings.empty());
  const auto b = xml.root().child("b");
  CHECK(at(xml.place_of(xml.root())) == "2:2");
  CHECK(at(xml.place_of(b)) == "3:4");
  CHECK(at(xml.place_of(b.attribute("été"))) == "3:6");
  CHECK(at(xml.place_of(b.attribute("c"))) == "3:14");
  CHECK(at(xml.place_of_value(b.attribute("c"))) == "3:17");
  CHECK(at(xml.place_of(b.first_child())) == "3:24");
  CHECK(at(xml.place_of(xml.root().child("d"))) == "4:2");
}

TEST_CASE("xml: a byte order mark is no column") {
  Findings findings;
  const XmlText xml("\xEF\xBB\xBF<a>\n<b/></a>", "a.xml", findings);
  REQUIRE(findings.empty());
  CHECK(at(xml.place_of(xml.root())) == "1:2");
  CHECK(at(xml.place_of(xml.root().child("b"))) == "2:2");
}

TEST_CASE("xml: sound texts pass, with comments, character data and references") {
  CHECK(first_message("<a/>") == "");
  CHECK(first_message("<!-- a & b < c --><a x='1 &gt; 0 &#xD8;'><![CDATA[ & < ]]></a>\n") == "");
  CHECK(first_message("<?xml version='1.0' encoding='utf-8'?><a>&quot;it's&quot;</a>") == "");
}

TEST_CASE("xml: each breach of form is one error with its place") {
  CHECK(first_message("<a>\n<b>\n</a>") ==
        "a.xml:3:3: error [xml-form]: not well-formed XML: start-end tags mismatch; close every "
        "element under its own name");
  CHECK(first_message("<!DOCTYPE a [<!ENTITY e 'x'>]><a>&e;</a>") ==
        "a.xml:1:1: error [xml-doctype]: a document type declaration is not read; leave it out; "
        "editors find the schema without it");
  CHECK(first_message("<a>x &foo; y</a>") ==
        "a.xml:1:6: error [xml-entity]: the entity '&foo;' is not known; write &amp; for '&', or "
        "the character itself");
  CHECK(first_message("<a x='R & D'/>") ==
        "a.xml:1:9: error [xml-entity]: a bare '&'; write &amp; for '&', or the character itself");
  CHECK(first_message("<a x='1' y='2'\n x='3'/>") ==
        "a.xml:2:2: error [xml-attribute]: attribute 'x' stands twice or is one too many; keep "
        "one");
  CHECK(first_message("<a x='1 < 2'/>") ==
        "a.xml:1:9: error [xml-form]: a '<' inside a tag; write &lt; in values, and close the tag "
        "before the next one");
  CHECK(first_message("<a/>\n<b/>") ==
        "a.xml:2:2: error [xml-form]: something stands outside the root element; keep everything "
        "inside one element");
  CHECK(first_message("<a/> x").find("outside the root") != std::string::npos);
  CHECK(first_message("") ==
        "a.xml:1:1: error [xml-form]: the file has no element; write a root element");
  CHECK(first_message("<a>\n\xff</a>") ==
        "a.xml:2:1: error [xml-encoding]: a line that is not clean UTF-8 (broken or control "
        "characters); save the file as UTF-8 and take out control characters");
  CHECK(first_message("<?xml version='1.0' encoding='koi8-r'?><a/>").find("xml-encoding") !=
        std::string::npos);
  CHECK(first_message("<a><?run x?></a>").find("xml-instruction") != std::string::npos);
}

TEST_CASE("xml: references to characters that no text may hold are refused") {
  for (const char* r : {"&#0;", "&#1;", "&#xD800;", "&#xFFFF;", "&#x110000;", "&#;", "&#x;", "&;"})
    CHECK(first_message(std::string("<a>") + r + "</a>").find("xml-entity") != std::string::npos);
}

TEST_CASE("xml: hostile sizes end in an error, not in a crash") {
  std::string deep;
  for (int i = 0; i < 200000; ++i) deep += "<a>";
  CHECK(first_message(deep) != "");
  for (int i = 0; i < 200000; ++i) deep += "</a>";
  CHECK(first_message(deep) ==
        "a.xml:1:194: error [xml-depth]: elements more than 64 deep; nest less");
  std::string wide = "<a";
  for (int i = 0; i < 10000; ++i) wide += " x" + std::to_string(i) + "=''";
  CHECK(first_message(wide + "/>").find("xml-attribute") != std::string::npos);
  for (const char* cut : {"<", "<a", "<a x", "<a x='", "<!--", "<![CDATA[", "<?xml ", "<a>", "&"})
    CHECK(first_message(cut) != "");
}
