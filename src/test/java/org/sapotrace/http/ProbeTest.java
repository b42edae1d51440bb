package org.sapotrace.http;

import io.quarkus.test.common.http.TestHTTPResource;
import java.net.URL;
import org.sapotrace.testing.RawHttp;

/** What the tests that speak to the probe have in common. */
abstract class ProbeTest {

  /** A body that is taken. */
  static final String VALID =
      """
      {"name": "a", "notes": "two\\nlines", "finish": "high-gloss", "at": "2026-03-04T09:20:00Z",
       "on": "2026-03-04", "id": "0190163d-8694-739b-aea5-966c26f8ad90", "exact": true, "count": 3,
       "share": {"fraction": 0.5}, "items": [{"sizeMl": 1.5, "otherMl": 2}, {"sizeMl": 3}],
       "values": [1, 2.5]}""";

  @TestHTTPResource("/")
  URL service;

  RawHttp http() {
    return new RawHttp(service.getPort());
  }

  RawHttp.Answer post(String body) {
    return http().json("POST", "/probe/bodies", body);
  }

  /** The valid body with the first occurrence of a piece of it replaced. */
  static String but(String piece, String replacement) {
    if (!VALID.contains(piece)) {
      throw new IllegalArgumentException(piece);
    }
    return VALID.replace(piece, replacement);
  }
}
