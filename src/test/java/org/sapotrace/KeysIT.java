package org.sapotrace;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.testing.RunningService;
import org.sapotrace.testing.RunningService.Setup;

/** The packaged service where keys are needed, from its first start on. */
class KeysIT {

  private static final Pattern KEY = Pattern.compile("sapo_[0-9a-f]{16}_[A-Za-z0-9_-]{43}");

  @Test
  void showsTheFirstKeyOnceAndListensBeyondLoopback(@TempDir Path directory) {
    Setup setup =
        Setup.on(directory)
            .withEnvironment("SAPOTRACE_ACCESS", "keys")
            .withEnvironment("QUARKUS_HTTP_HOST", "0.0.0.0");
    String key;
    try (RunningService first = setup.start()) {
      Matcher shown = KEY.matcher(first.output());
      assertThat(shown.find()).as("shown: %s", first.output()).isTrue();
      key = shown.group();
      assertThat(shown.find()).isFalse();
      assertThat(status(first, "/api/v1/keys", key)).isEqualTo(200);
      assertThat(first.get("/api/v1/keys").statusCode()).isEqualTo(401);
      assertThat(first.get("/").statusCode()).isEqualTo(401);
      first.terminate();
    }
    try (RunningService second = setup.start()) {
      assertThat(second.output()).doesNotContain("sapo_");
      assertThat(status(second, "/api/v1/keys", key)).isEqualTo(200);
    }
  }

  private static int status(RunningService service, String path, String key) {
    HttpResponse<String> answer =
        service.send(
            HttpRequest.newBuilder(service.baseUrl().resolve(path))
                .header("Authorization", "Bearer " + key)
                .build());
    return answer.statusCode();
  }
}
