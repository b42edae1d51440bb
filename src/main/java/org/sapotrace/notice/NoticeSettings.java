package org.sapotrace.notice;

import java.net.URI;
import java.net.URISyntaxException;
import org.sapotrace.refusal.Refusal;

/**
 * What is set about notices.
 *
 * @param publicUrl the address under which people reach the service, without a slash at its end
 * @param relays whether this process carries notices to subscribers
 */
public record NoticeSettings(String publicUrl, boolean relays) {

  /**
   * The settings of that text.
   *
   * @throws Refusal where one says nothing that it can say
   */
  public static NoticeSettings of(String publicUrl, String relay) {
    if (!relay.equals("on") && !relay.equals("off")) {
      throw Refusal.impossible(
          "SAPOTRACE_NOTICE_RELAY is \"%s\": set \"on\", or \"off\" where another process on the same database carries the notices."
              .formatted(relay));
    }
    try {
      URI address = new URI(publicUrl);
      if (address.getHost() != null
          && String.valueOf(address.getScheme()).matches("https?")
          && address.getRawUserInfo() == null
          && address.getRawQuery() == null
          && address.getRawFragment() == null) {
        return new NoticeSettings(publicUrl.replaceAll("/+$", ""), relay.equals("on"));
      }
    } catch (URISyntaxException unreadable) {
      // Refused below.
    }
    throw Refusal.impossible(
        "SAPOTRACE_PUBLIC_URL is \"%s\": set the address under which people reach the service, such as https://sapotrace.plant.example."
            .formatted(publicUrl));
  }
}
