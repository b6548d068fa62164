"""Texts that would do harm on a page that let them through."""

HOSTILE = (
    "<script>document.title='reached'</script>",
    "</script><img src=x onerror=document.title='reached'>",
    "\"'><svg onload=document.title='reached'>",
    "&lt;b&gt; &amp; &#60;i&#62; --> <!-- ]]>",
    "javascript:document.title='reached'",
    "${document.title='reached'}`\\u003cb\\u003e",
)
