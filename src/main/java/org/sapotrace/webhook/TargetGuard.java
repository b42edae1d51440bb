package org.sapotrace.webhook;

import java.net.InetAddress;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.UnknownHostException;
import java.util.Arrays;

/*
 * Whoever names a target has the service send requests from where it stands, which may be behind
 * the plant's walls. So every address that a name stands for is looked at each time before a
 * message is sent, and the connection goes to an address that was looked at: a name that stands for
 * something else a moment later leads nowhere else.
 */
/** Tells where messages may go. */
public final class TargetGuard {

  /** Finds the addresses of a host. */
  @FunctionalInterface
  interface Resolver {
    InetAddress[] addresses(String host) throws UnknownHostException;
  }

  private static final int LONGEST = 2000;
  private static final int HTTPS = 443;

  private final AllowedHosts allowed;
  private final Resolver resolver;

  public TargetGuard(AllowedHosts allowed) {
    this(allowed, InetAddress::getAllByName);
  }

  TargetGuard(AllowedHosts allowed, Resolver resolver) {
    this.allowed = allowed;
    this.resolver = resolver;
  }

  /**
   * The target that a text names.
   *
   * @throws IllegalArgumentException where no message may go there
   */
  public URI target(String text) {
    URI target = parsed(text);
    String host = target.getHost();
    if (allowed.contains(host)) {
      return target;
    }
    boolean usual = target.getPort() == -1 || target.getPort() == HTTPS;
    if (!target.getScheme().equals("https") || !usual) {
      throw new IllegalArgumentException(
          "Notices go to https on port 443 only: an operator may name %s in SAPOTRACE_NOTICE_ALLOWED_HOSTS to allow others."
              .formatted(host));
    }
    address(target);
    return target;
  }

  /**
   * The address to connect to.
   *
   * @throws IllegalArgumentException where the target's name stands for none, or for one that no
   *     message may go to
   */
  InetAddress address(URI target) {
    String host = target.getHost();
    InetAddress[] addresses;
    try {
      addresses = resolver.addresses(host);
    } catch (UnknownHostException unknown) {
      throw new IllegalArgumentException("There is no host %s.".formatted(host));
    }
    if (!allowed.contains(host) && !Arrays.stream(addresses).allMatch(PublicAddresses::contains)) {
      throw new IllegalArgumentException(
          "%s is not on the public internet: an operator may name it in SAPOTRACE_NOTICE_ALLOWED_HOSTS to allow it."
              .formatted(host));
    }
    return addresses[0];
  }

  private static URI parsed(String text) {
    try {
      URI target = new URI(text);
      String scheme = String.valueOf(target.getScheme());
      if (text.length() <= LONGEST
          && (scheme.equals("https") || scheme.equals("http"))
          && target.getHost() != null
          && target.getRawUserInfo() == null
          && target.getRawFragment() == null
          && target.getPort() <= 65_535
          && target.getPort() != 0) {
        return target;
      }
    } catch (URISyntaxException unreadable) {
      // Refused below.
    }
    throw new IllegalArgumentException(
        "A target is an address such as https://alerts.plant.example/sapotrace: without user, password and #, in ASCII, at most 2000 characters long.");
  }
}
