package org.sapotrace.http;

import io.agroal.api.AgroalDataSource;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Deque;
import java.util.concurrent.ConcurrentLinkedDeque;

/** What resources do with the database, for the tests of what goes wrong there. */
@Path("/probe/database")
public class ProbeDatabaseResource {

  private static final Deque<Connection> HELD = new ConcurrentLinkedDeque<>();

  @Inject AgroalDataSource database;

  @GET
  public int one() throws SQLException {
    try (Connection connection = database.getConnection();
        Statement statement = connection.createStatement();
        ResultSet result = statement.executeQuery("select 1")) {
      result.next();
      return result.getInt(1);
    }
  }

  /** Breaks a unique key when the transaction is committed, after the method has returned. */
  @POST
  @Path("/duplicates")
  @Transactional
  public void duplicate() throws SQLException {
    try (Connection connection = database.getConnection();
        Statement statement = connection.createStatement()) {
      statement.execute(
          "create temporary table if not exists twice (n int unique deferrable initially deferred)");
      statement.execute("insert into twice values (1), (1)");
    }
  }

  /** Takes a connection and keeps it. */
  @POST
  @Path("/held")
  public void hold() throws SQLException {
    HELD.push(database.getConnection());
  }

  @DELETE
  @Path("/held")
  public void release() throws SQLException {
    while (!HELD.isEmpty()) {
      HELD.pop().close();
    }
  }
}
