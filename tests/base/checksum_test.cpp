// SHA-256 against the examples that NIST publishes for FIPS 180-4 ("Secure Hash Standard", examples
// with intermediate values: "abc", the message of 448 bits; the empty message: CAVP short messages).
#include "base/checksum.h"

#include <doctest/doctest.h>

using deckquire::sha256;

TEST_CASE("checksum: published examples of SHA-256") {
  CHECK(sha256("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}
