package org.sapotrace.titrant;

import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.restassured.response.Response;
import java.util.concurrent.atomic.AtomicInteger;

/** A new titrant lot of 0.01 mol/L, which no other test knows. */
final class TestLot {

  private static final AtomicInteger LOTS = new AtomicInteger();

  final String slug;
  final String path;

  private TestLot(String slug) {
    this.slug = slug;
    this.path = "/titrants/" + slug;
  }

  static TestLot of(String reagent) {
    return with("{\"reagent\": \"%s\", \"nominalNormality\": 0.01}".formatted(reagent));
  }

  /** A lot as described in JSON. */
  static TestLot with(String declaration) {
    TestLot lot = new TestLot("lot-" + LOTS.incrementAndGet());
    json(201, put(lot.path, declaration));
    return lot;
  }

  /**
   * A standardisation on sodium carbonate that comes to a normality: one aliquot of 10 mL, of a
   * solution of 0.53 g in 1000 mL, and the volume that c = 1000 m / (E V) asks for, with E = 52.994
   * g/mol.
   */
  static String comingTo(double normality, String performedAt) {
    return body(1000 * 0.0053 / (52.994 * normality), performedAt);
  }

  static String body(double titrantMl, String performedAt) {
    return """
        {"standard": "sodium-carbonate", "purity": 1, "performedAt": "%s", "blankMl": 0,
         "replicates": [{"solution": {"standardG": 0.53, "volumeMl": 1000}, "aliquotMl": 10,
                         "titrantMl": %s}]}
        """
        .formatted(performedAt, titrantMl);
  }

  Response standardise(String body) {
    return post(path + "/standardisations", body);
  }

  /** Records a standardisation that comes to that normality. */
  JsonNode standardised(double normality, String performedAt) {
    return json(201, standardise(comingTo(normality, performedAt)));
  }
}
