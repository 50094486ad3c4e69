#include "server/guard.hpp"

#include <gtest/gtest.h>

#include "base/limits.hpp"

namespace farflung::server {
namespace {

const std::string kToken = "0123456789abcdef0123456789abcdef";
const std::string kSession = "fedcba9876543210fedcba9876543210";

Guard guard() { return {kToken, kSession, 7430, {"127.0.0.1", "localhost", "192.168.1.5"}}; }

/// What our own page sends.
Head head(const std::string& method = "GET") {
  Head one;
  one.method = method;
  one.peer = "127.0.0.1";
  one.headers = {
      {"host", "127.0.0.1:7430"}, {"cookie", "other=1; farflung-7430=" + kSession}, {"sec-fetch-site", "same-origin"}};
  if (method != "GET") one.headers["origin"] = "http://127.0.0.1:7430";
  return one;
}

TEST(Guard, LetsOurOwnPageIn) {
  EXPECT_EQ(guard().refusal(head("GET")), "");
  EXPECT_EQ(guard().refusal(head("POST")), "");
  EXPECT_EQ(guard().refusal(head("DELETE")), "");
  Head typed = head();
  typed.headers["sec-fetch-site"] = "none";
  EXPECT_EQ(guard().refusal(typed), "");
  Head no_browser = head();
  no_browser.headers.erase("sec-fetch-site");
  EXPECT_EQ(guard().refusal(no_browser), "");
}

TEST(Guard, RefusesAForeignHost) {
  for (const char* host : {"evil.example:7430", "127.0.0.1", "127.0.0.1:80", "127.0.0.1:7430.evil.example", "",
                           "localhost:7430@evil.example", "LOCALHOST:7430 "}) {
    Head one = head();
    one.headers["host"] = host;
    EXPECT_NE(guard().refusal(one), "") << host;
  }
  Head none = head();
  none.headers.erase("host");
  EXPECT_NE(guard().refusal(none), "");
}

TEST(Guard, RefusesAForeignOriginAndOnAnythingButGetAlsoNone) {
  for (const char* method : {"POST", "DELETE", "PUT", "OPTIONS"}) {
    Head none = head(method);
    none.headers.erase("origin");
    EXPECT_NE(guard().refusal(none), "") << method;
    for (const char* origin :
         {"null", "http://evil.example", "http://127.0.0.1:9999", "https://127.0.0.1:7430", "http://localhost:7430"}) {
      Head one = head(method);
      one.headers["origin"] = origin;
      EXPECT_NE(guard().refusal(one), "") << method << " " << origin;
    }
  }
  Head get = head();
  get.headers["origin"] = "http://evil.example";
  EXPECT_NE(guard().refusal(get), "");
}

TEST(Guard, RefusesAnotherSiteEvenOnTheSameHost) {
  for (const char* site : {"cross-site", "same-site", "nonsense"}) {
    Head one = head();
    one.headers["sec-fetch-site"] = site;
    EXPECT_NE(guard().refusal(one), "") << site;
  }
}

TEST(Guard, RefusesAWrongMissingOrDoubledCookie) {
  for (const std::string& cookie :
       {std::string(), std::string("farflung-7430="), "farflung-7430=" + kToken, "farflung-7431=" + kSession,
        "farflung-7430=" + kSession.substr(1), "farflung-7430=" + kSession + "; farflung-7430=" + kSession}) {
    Head one = head();
    one.headers["cookie"] = cookie;
    EXPECT_EQ(guard().refusal(one), "token") << cookie;
  }
}

TEST(Guard, RefusesAHeaderThatStandsTwice) {
  Head one = head();
  one.repeated = true;
  EXPECT_NE(guard().refusal(one), "");
}

TEST(Guard, ChangesTheMainTokenForTheCookieOnThisMachineAlone) {
  Guard one = guard();
  EXPECT_EQ(one.cookie_for(head(), kToken), kSession);
  EXPECT_EQ(one.cookie_for(head(), kToken), kSession) << "a reload of the printed address";
  EXPECT_EQ(one.cookie_for(head(), kSession), "");
  EXPECT_EQ(one.cookie_for(head(), ""), "");
  Head neighbour = head();
  neighbour.peer = "192.168.1.9";
  EXPECT_EQ(one.cookie_for(neighbour, kToken), "");
  EXPECT_EQ(one.refusal(neighbour), "token") << "nor does the main cookie, overheard, help a neighbour";
}

TEST(Guard, ATelephonesTokenOpensOnce) {
  Guard one = guard();
  Head telephone = head();
  telephone.peer = "192.168.1.9";
  telephone.headers["host"] = "192.168.1.5:7430";
  const std::string token = one.telephone_token();
  const std::string cookie = one.cookie_for(telephone, token);
  ASSERT_FALSE(cookie.empty());
  EXPECT_EQ(one.cookie_for(telephone, token), "") << "replayed";
  telephone.headers["cookie"] = "farflung-7430=" + cookie;
  EXPECT_EQ(one.refusal(telephone), "");
  const std::string next = one.telephone_token();
  EXPECT_NE(next, token);
  EXPECT_NE(one.cookie_for(telephone, next), cookie) << "each telephone has a cookie of its own";
}

TEST(Guard, OneTelephoneTooManyLetsOutTheFirstThatCame) {
  Guard one = guard();
  Head telephone = head();
  telephone.peer = "192.168.1.9";
  telephone.headers["host"] = "192.168.1.5:7430";
  std::vector<std::string> cookies;
  for (std::size_t i = 0; i <= limits::kTelephones; ++i) {
    cookies.push_back(one.cookie_for(telephone, one.telephone_token()));
    ASSERT_FALSE(cookies.back().empty());
  }
  const auto refusal_with = [&](const std::string& cookie) {
    telephone.headers["cookie"] = "farflung-7430=" + cookie;
    return one.refusal(telephone);
  };
  EXPECT_EQ(refusal_with(cookies.front()), "token");
  EXPECT_EQ(refusal_with(cookies[1]), "");
  EXPECT_EQ(refusal_with(cookies.back()), "");
}

TEST(Guard, AnEarlierTelephoneTokenIsVoidOnceAnotherIsMade) {
  Guard one = guard();
  const std::string first = one.telephone_token();
  static_cast<void>(one.telephone_token());
  EXPECT_EQ(one.cookie_for(head(), first), "");
}

TEST(Guard, TokensAreLongAndNeverTheSame) {
  EXPECT_EQ(fresh_token().size(), 32U);
  EXPECT_NE(fresh_token(), fresh_token());
  EXPECT_FALSE(same_secret("", ""));
  EXPECT_FALSE(same_secret("abc", "abd"));
  EXPECT_FALSE(same_secret("abc", "abcd"));
  EXPECT_TRUE(same_secret("abc", "abc"));
}

}  // namespace
}  // namespace farflung::server
