package org.sapotrace.testing;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.callback.QuarkusTestBeforeEachCallback;
import io.quarkus.test.junit.callback.QuarkusTestMethodContext;
import io.restassured.RestAssured;
import io.restassured.filter.Filter;
import io.restassured.filter.FilterContext;
import io.restassured.response.Response;
import io.restassured.specification.FilterableRequestSpecification;
import io.restassured.specification.FilterableResponseSpecification;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * Holds every exchange of every test with the service against the contract. Before each test of the
 * running service it is put among the filters of REST Assured, wherever requests come from.
 */
public final class ContractFilter implements Filter, QuarkusTestBeforeEachCallback {

  @Override
  public void beforeEach(QuarkusTestMethodContext test) {
    if (RestAssured.filters().stream().noneMatch(ContractFilter.class::isInstance)) {
      RestAssured.filters(this);
    }
  }

  @Override
  public Response filter(
      FilterableRequestSpecification request,
      FilterableResponseSpecification expected,
      FilterContext next) {
    Response answer = next.next(request, expected);
    Exchange exchange = exchange(request, answer);
    assertThat(exchange.objections()).as("%s %s", exchange, answer.asString()).isEmpty();
    return answer;
  }

  private static Exchange exchange(FilterableRequestSpecification request, Response answer) {
    URI uri = URI.create(request.getURI());
    Map<String, String> headers = new TreeMap<>();
    answer
        .headers()
        .forEach(
            header -> headers.put(header.getName().toLowerCase(Locale.ROOT), header.getValue()));
    return new Exchange(
        request.getMethod(),
        uri.getRawPath() + (uri.getRawQuery() == null ? "" : "?" + uri.getRawQuery()),
        request.getContentType() == null ? "" : request.getContentType(),
        bytes(request.getBody()),
        answer.statusCode(),
        headers,
        answer.asByteArray());
  }

  private static byte[] bytes(Object body) {
    if (body == null) {
      return new byte[0];
    }
    return body instanceof byte[] bytes
        ? bytes
        : String.valueOf(body).getBytes(StandardCharsets.UTF_8);
  }
}
