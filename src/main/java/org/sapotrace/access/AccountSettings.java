package org.sapotrace.access;

import java.net.URI;
import java.net.URISyntaxException;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.sapotrace.refusal.Refusal;

/**
 * What is set about accounts of the plant.
 *
 * @param issuer whose tokens are taken; null where only keys are
 */
public record AccountSettings(@Nullable Issuer issuer) {

  private static final String USUAL_SCOPES_CLAIM = "roles";

  /** The name of a claim, or a JSON pointer (RFC 6901) into the claims. */
  private static final Pattern CLAIM = Pattern.compile("[^/\\s]\\S*|(/([^~/\\s]|~[01])+)+");

  private static final Set<String> THIS_MACHINE = Set.of("localhost", "127.0.0.1", "[::1]");

  /**
   * An identity provider that is trusted to say who somebody is, and what they may do.
   *
   * @param address as it stands in {@code iss}, to the letter
   * @param audience what must stand in {@code aud}
   * @param scopesClaim where a token says what its bearer may do
   * @param linesClaim where it says on which lines; null where it may be done on every line
   */
  public record Issuer(
      String address, String audience, String scopesClaim, @Nullable String linesClaim) {}

  /**
   * The settings of that text.
   *
   * @throws Refusal where one says nothing that it can say, or is there without another
   */
  public static AccountSettings of(
      Optional<String> issuer,
      Optional<String> audience,
      Optional<String> scopesClaim,
      Optional<String> linesClaim) {
    if (issuer.isEmpty()) {
      if (audience.isPresent() || scopesClaim.isPresent() || linesClaim.isPresent()) {
        throw Refusal.impossible(
            "SAPOTRACE_OIDC_AUDIENCE, _SCOPES_CLAIM and _LINES_CLAIM tell what tokens of an issuer must hold: set SAPOTRACE_OIDC_ISSUER as well, or leave them unset.");
      }
      return new AccountSettings(null);
    }
    requireAddress(issuer.get());
    linesClaim.ifPresent(claim -> requireClaim("SAPOTRACE_OIDC_LINES_CLAIM", claim));
    String scopes = scopesClaim.orElse(USUAL_SCOPES_CLAIM);
    requireClaim("SAPOTRACE_OIDC_SCOPES_CLAIM", scopes);
    return new AccountSettings(
        new Issuer(issuer.get(), audience(audience), scopes, linesClaim.orElse(null)));
  }

  /** OpenID Connect Discovery 1.0, section 3: https, without query and fragment. */
  private static void requireAddress(String address) {
    try {
      URI uri = new URI(address);
      boolean secure = "https".equals(uri.getScheme());
      boolean here = "http".equals(uri.getScheme()) && THIS_MACHINE.contains(uri.getHost());
      if ((secure || here)
          && uri.getHost() != null
          && uri.getRawUserInfo() == null
          && uri.getRawQuery() == null
          && uri.getRawFragment() == null) {
        return;
      }
    } catch (URISyntaxException unreadable) {
      // Refused below.
    }
    throw Refusal.impossible(
        "SAPOTRACE_OIDC_ISSUER is no address of an issuer: set it as it stands in the tokens' iss, such as https://accounts.plant.example/plant.");
  }

  private static String audience(Optional<String> audience) {
    // The word by which the library would take tokens for anybody.
    if (audience.isEmpty() || audience.get().equals("any")) {
      throw Refusal.impossible(
          "SAPOTRACE_OIDC_AUDIENCE is %s: set the name of this service that stands in the tokens' aud, so that tokens for others do not count here."
              .formatted(audience.isEmpty() ? "not set" : "\"any\""));
    }
    return audience.get();
  }

  private static void requireClaim(String setting, String claim) {
    if (!CLAIM.matcher(claim).matches()) {
      throw Refusal.impossible(
          "%s is \"%s\": set the name of a claim, such as roles, or a JSON pointer to it, such as /sapotrace/roles."
              .formatted(setting, claim));
    }
  }
}
