package org.sapotrace.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.http.ProblemAssertions.assertProblem;

import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.RawHttp;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class ConditionalRequestTest extends ProbeTest {

  @Test
  void answers304ToWhoHasIt() {
    RawHttp.Answer first = http().get("/probe/document");
    assertThat(first.header("Cache-Control")).isEqualTo("no-cache");
    String tag = first.header("ETag");
    assertThat(tag).matches("\"\\d+\"");

    RawHttp.Answer again = http().get("/probe/document", "If-None-Match: \"x\", " + tag);

    assertThat(again.status()).isEqualTo(304);
    assertThat(again.body()).isEmpty();
    assertThat(again.header("ETag")).isEqualTo(tag);
    assertThat(http().get("/probe/document", "If-None-Match: \"x\"").status()).isEqualTo(200);
  }

  @Test
  void replacesOnlyTheVersionThatIsNamed() {
    String tag = http().get("/probe/document").header("ETag");

    RawHttp.Answer replaced = put("/probe/document", "If-Match: " + tag);
    assertThat(replaced.status()).isEqualTo(200);
    assertThat(replaced.header("ETag")).isNotEqualTo(tag);
    assertProblem(put("/probe/document", "If-Match: " + tag), 412);
    assertProblem(put("/probe/document", "If-Match: W/" + replaced.header("ETag")), 412);
    assertThat(put("/probe/document", "If-Match: *").status()).isEqualTo(200);
  }

  @ParameterizedTest
  @ValueSource(strings = {"If-Match: \"7777\"", "If-Match: garbage", "If-None-Match: *"})
  void refusesToReplaceAnotherVersion(String condition) {
    assertProblem(put("/probe/document", condition), 412);
  }

  @Test
  void createsOnlyWhereNothingIsExpected() {
    assertProblem(put("/probe/absent", "If-Match: *"), 412);
    assertProblem(put("/probe/absent", "If-Match: \"1\""), 412);
    assertThat(put("/probe/absent", "If-None-Match: *").status()).isEqualTo(200);
  }

  @Test
  void tagsBytesByTheirContent() {
    assertThat(Preconditions.tag(new byte[] {1})).isEqualTo(Preconditions.tag(new byte[] {1}));
    assertThat(Preconditions.tag(new byte[] {1})).isNotEqualTo(Preconditions.tag(new byte[] {2}));
    assertThat(Preconditions.tag(new byte[] {1}).isWeak()).isFalse();
  }

  private RawHttp.Answer put(String path, String condition) {
    return http().request("PUT", path, "[1]", "Content-Type: application/json", condition);
  }
}
