package org.sapotrace.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.NullSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.refusal.Refusal;

class AccountSettingsTest {

  private static final String ISSUER = "https://accounts.plant.example/plant";

  private static AccountSettings of(String issuer, String audience, String scopes, String lines) {
    return AccountSettings.of(
        Optional.ofNullable(issuer),
        Optional.ofNullable(audience),
        Optional.ofNullable(scopes),
        Optional.ofNullable(lines));
  }

  private static void assertRefused(
      String issuer, String audience, String scopes, String lines, String sentence) {
    assertThatThrownBy(() -> of(issuer, audience, scopes, lines))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining(sentence);
  }

  @Test
  void trustsNobodyUnlessAnIssuerIsSet() {
    assertThat(of(null, null, null, null).issuer()).isNull();
    assertRefused(null, "bench", null, null, "set SAPOTRACE_OIDC_ISSUER");
    assertRefused(null, null, "roles", null, "set SAPOTRACE_OIDC_ISSUER");
    assertRefused(null, null, null, "lines", "set SAPOTRACE_OIDC_ISSUER");
  }

  /** OpenID Connect Discovery 1.0, section 3; plain http on this machine only. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        ISSUER,
        "https://accounts.plant.example",
        "https://accounts.plant.example/",
        "http://localhost:8180/plant",
        "http://127.0.0.1:8180",
        "http://[::1]/plant"
      })
  void takesAnIssuerToTheLetter(String address) {
    assertThat(of(address, "bench", null, null).issuer())
        .isEqualTo(new AccountSettings.Issuer(address, "bench", "roles", null));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "accounts.plant.example",
        "http://accounts.plant.example",
        "http://127.0.0.1.plant.example",
        "ftp://accounts.plant.example",
        "https://",
        "https://user@accounts.plant.example",
        "https://accounts.plant.example?realm=plant",
        "https://accounts.plant.example#plant",
        "https:accounts",
        "any"
      })
  void refusesWhatIsNoIssuer(String address) {
    assertRefused(address, "bench", null, null, "SAPOTRACE_OIDC_ISSUER is no address");
  }

  @ParameterizedTest
  @NullSource
  @ValueSource(strings = "any")
  void needsAnAudience(String audience) {
    assertRefused(ISSUER, audience, null, null, "SAPOTRACE_OIDC_AUDIENCE is");
  }

  @ParameterizedTest
  @CsvSource({
    "scope, lines",
    "https://plant.example/roles, https://plant.example/lines",
    "/sapotrace/roles, /a~1b/c~0d"
  })
  void findsClaimsByNameOrPointer(String scopes, String lines) {
    assertThat(of(ISSUER, "bench", scopes, lines).issuer())
        .isEqualTo(new AccountSettings.Issuer(ISSUER, "bench", scopes, lines));
  }

  @ParameterizedTest
  @ValueSource(strings = {"/", "/a/", "//", "/a b", "/a~2", "a b", " "})
  void refusesWhatIsNoClaim(String claim) {
    assertRefused(ISSUER, "bench", claim, null, "SAPOTRACE_OIDC_SCOPES_CLAIM is");
    assertRefused(ISSUER, "bench", null, claim, "SAPOTRACE_OIDC_LINES_CLAIM is");
  }
}
