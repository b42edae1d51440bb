package org.sapotrace.access;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Scope;
import org.sapotrace.refusal.Refusal;

/**
 * A person with an account of the plant, for as long as a request takes: nothing about people is
 * kept but their identifier, beside what they did.
 *
 * @param id tells one account of one issuer from every other, and from every key
 * @param scopes at least one, in their declared order
 * @param reach the slugs of the lines that the person may touch; null for every line
 */
public record Person(String id, List<Scope> scopes, @Nullable Set<String> reach)
    implements Entitled {

  /** What stands before a scope in a token, whose other entries are for other services. */
  private static final String OURS = "sapotrace:";

  private static final String EVERY_LINE = "*";
  private static final int DIGITS = 32;

  /**
   * The person whom a good token is about.
   *
   * @param subject the issuer's identifier of the account
   * @param roles what the token says in the claim of scopes
   * @param lines what the token says in the claim of lines; not looked at where none is set
   * @throws Refusal where that lets the person do nothing, or more than lines allow
   */
  public static Person of(
      AccountSettings.Issuer issuer, String subject, List<String> roles, List<String> lines) {
    List<Scope> scopes =
        Arrays.stream(Scope.values()).filter(each -> roles.contains(OURS + each.id())).toList();
    if (scopes.isEmpty()) {
      throw Refusal.forbidden(
          "This account may do nothing here: its token names none of sapotrace:read, sapotrace:record, sapotrace:review and sapotrace:administer in \"%s\". Who runs the accounts can give it one."
              .formatted(issuer.scopesClaim()));
    }
    Set<String> reach = issuer.linesClaim() == null ? null : reach(issuer.linesClaim(), lines);
    if (reach != null && scopes.contains(Scope.ADMINISTER)) {
      throw Refusal.forbidden(
          "Who administers can give out keys for any line: the token must say \"*\" in \"%s\", or other scopes."
              .formatted(issuer.linesClaim()));
    }
    return new Person(identifier(issuer.address(), subject), scopes, reach);
  }

  /** Where lines are told apart, a token that says nothing about them is for none. */
  private static @Nullable Set<String> reach(String claim, List<String> lines) {
    if (lines.isEmpty()) {
      throw Refusal.forbidden(
          "This account may touch no line: its token names none in \"%s\", and \"*\" stands for every line. Who runs the accounts can give it some."
              .formatted(claim));
    }
    return lines.contains(EVERY_LINE) ? null : Set.copyOf(lines);
  }

  /**
   * An account is told by its issuer and subject together (OpenID Connect Core 1.0, section 2). An
   * address holds no NUL, so that no two pairs are one text. The prefix keeps it from being a key's
   * identifier, {@code bench} or {@code service}.
   */
  private static String identifier(String issuer, String subject) {
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest((issuer + "\0" + subject).getBytes(UTF_8));
      return "person-" + HexFormat.of().formatHex(digest).substring(0, DIGITS);
    } catch (NoSuchAlgorithmException everyJavaHasIt) {
      throw new IllegalStateException(everyJavaHasIt);
    }
  }
}
