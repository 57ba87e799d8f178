' Sends the cabinet rows of this workbook to a casewright service and fills the sheets Parts, Hardware, Steps, Costs,
' Hanging and Checks with its answers, and Drawings with pictures. What is wrong is written beside the row or value that
' is wrong. Nothing is coloured.
'
' This module is the same for every spreadsheet program that reads this language; what differs between them (cells,
' remarks, pictures, print set-up, HTTP) is in the module Host: host_calc.bas or host_vba.bas.
'
' Sheet Cabinets: B1 the service's address, B2 what came of it, row 5 headings (dotted paths into a cabinet, ending
' with "problem"), then one cabinet a row. Sheet Job: from row 2 a dotted path into the job, its value, its problem.
' Sheets of answers: A1 the warning where the plan has stops, row 2 headings, then what was answered.

Option Explicit

Const HEADINGS = 5
Const JOB_FIRST = 2
Const ANSWER_HEADINGS = 2
Const MOST_ROWS = 500
Const MOST_COLUMNS = 200
Const MOST_PICTURES = 12

Sub SendCabinets()
    Dim table As String, words As String, done As Boolean
    EmptyAnswers
    EmptyProblems
    table = JobTable()
    done = AskFor("Steps", "steps", table) ' takes the whole plan, which the service keeps for the others
    If done Then done = AskFor("Parts", "parts", table)
    If done Then done = AskFor("Hardware", "hardware", table)
    If done Then done = AskFor("Costs", "costs", table)
    If done Then done = AskFor("Hanging", "mounting", table)
    If done Then done = AskFor("Checks", "checks", table)
    If done Then
        Draw table
        words = "Done: " & (LastRow("Parts", ANSWER_HEADINGS) - ANSWER_HEADINGS) & " lines of parts. " & Verdict()
        HostPut "Cabinets", 2, 2, words, False
    Else
        EmptyAnswers
    End If
End Sub

Private Sub EmptyAnswers()
    HostEmpty "Parts"
    HostEmpty "Hardware"
    HostEmpty "Steps"
    HostEmpty "Costs"
    HostEmpty "Hanging"
    HostEmpty "Checks"
    HostEmpty "Drawings"
End Sub

Private Sub EmptyProblems()
    Dim row As Long, column As Long, problems As Long
    HostPut "Cabinets", 2, 2, "Asking ...", False
    problems = ColumnOf("problem")
    For row = HEADINGS To LastRow("Cabinets", HEADINGS)
        For column = 1 To problems - 1
            HostRemark "Cabinets", row, column, ""
        Next column
        If row > HEADINGS Then HostPut "Cabinets", row, problems, "", False
    Next row
    For row = JOB_FIRST To LastRow("Job", JOB_FIRST)
        HostPut "Job", row, 3, "", False
    Next row
End Sub

' The job as CSV: the rows of Cabinets, and the rows of Job as columns that begin with "job." in the first of them.
Private Function JobTable() As String
    Dim text As String, line As String, row As Long, column As Long, problems As Long, first As Boolean, last As Long
    problems = ColumnOf("problem")
    last = LastRow("Job", JOB_FIRST)
    For column = 1 To problems - 1
        line = line & Quoted(HostText("Cabinets", HEADINGS, column)) & ","
    Next column
    For row = JOB_FIRST To last
        If JobGiven(row) Then line = line & Quoted("job." & HostText("Job", row, 1)) & ","
    Next row
    text = Left(line, Len(line) - 1) & Chr(13) & Chr(10)
    first = True
    For row = HEADINGS + 1 To LastRow("Cabinets", HEADINGS)
        line = ""
        For column = 1 To problems - 1
            line = line & Quoted(HostText("Cabinets", row, column)) & ","
        Next column
        If Len(Replace(line, ",", "")) = 0 Then
            line = "," ' an empty row keeps its number and is passed over
        ElseIf first Then
            line = line & JobCells(last)
            first = False
        End If
        text = text & Left(line, Len(line) - 1) & Chr(13) & Chr(10)
    Next row
    JobTable = text
End Function

Private Function JobCells(last As Long) As String
    Dim row As Long, line As String
    For row = JOB_FIRST To last
        If JobGiven(row) Then line = line & Quoted(HostText("Job", row, 2)) & ","
    Next row
    JobCells = line
End Function

Private Function JobGiven(row As Long) As Boolean
    JobGiven = Len(HostText("Job", row, 1)) > 0 And Len(HostText("Job", row, 2)) > 0
End Function

' A number that was typed as text in a language with a decimal comma, and the unit after it, with a point; all other
' text as it is.
Function Pointed(text As String, mark As String) As String
    Dim comma As Long, i As Long, unit As String
    Pointed = text
    comma = InStr(text, ",")
    If mark <> "," Or comma < 2 Then Exit Function
    i = 1
    If Left(text, 1) = "-" Then i = 2
    Do While i <= Len(text) And (i = comma Or (Mid(text, i, 1) >= "0" And Mid(text, i, 1) <= "9"))
        i = i + 1
    Loop
    unit = Trim(Mid(text, i))
    If i <= comma + 1 Or Len(unit) > 2 Or InStr(unit, ",") + InStr(unit, ".") > 0 Then Exit Function
    Pointed = Left(text, comma - 1) & "." & Mid(text, comma + 1)
End Function

Private Function Quoted(text As String) As String
    If InStr(text, ",") + InStr(text, """") + InStr(text, Chr(10)) + InStr(text, Chr(13)) > 0 Then
        Quoted = """" & Replace(text, """", """""") & """"
    Else
        Quoted = text
    End If
End Function

' Ask for one view and fill its sheet; False where it was refused, the reasons written.
Private Function AskFor(sheet As String, view As String, table As String) As Boolean
    Dim address As String, answer As String, status As Long
    address = HostText("Cabinets", 1, 2)
    If Right(address, 1) = "/" Then address = Left(address, Len(address) - 1)
    answer = HostPost(address & "/v1/" & view & "?as=csv", table, status)
    AskFor = (status = 200)
    If status = 200 Then
        FillSheet sheet, answer
        HostPrint sheet, ANSWER_HEADINGS
    ElseIf status = 0 Then
        HostPut "Cabinets", 2, 2, "No answer from " & address & "; is the service running? " & answer, False
    ElseIf InStr(answer, """errors"":[{") > 0 Then
        WriteProblems answer
    Else
        HostPut "Cabinets", 2, 2, "The service answered " & status & ": " & Left(answer, 300), False
    End If
End Function

' Put every sheet of some drawings below each other, each under its name. A drawing of what the job has none of, such as
' a wall, is passed over; so is what follows its last sheet.
Private Sub Draw(table As String)
    Dim views As Variant, i As Long, page As Long, row As Long, count As Long, picture As String, status As Long
    Dim address As String
    views = Array("wall", "elevation", "section")
    address = HostText("Cabinets", 1, 2)
    If Right(address, 1) = "/" Then address = Left(address, Len(address) - 1)
    row = 1
    For i = LBound(views) To UBound(views)
        page = 1
        status = 200
        Do While status = 200 And count < MOST_PICTURES
            picture = HostPost(address & "/v1/drawings/" & views(i) & "?as=svg&page=" & page, table, status)
            If status = 200 Then
                HostPut "Drawings", row, 1, views(i) & " " & page, False
                row = HostPicture("Drawings", row + 1, picture) + 1
                page = page + 1
                count = count + 1
            End If
        Loop
    Next i
    If count = MOST_PICTURES Then HostPut "Drawings", row, 1, "The booklet has every drawing.", False
    HostPrint "Drawings", 0
End Sub

' Fill a sheet from CSV (RFC 4180), all its cells at once. A first row under the headings with its first cell alone is a
' warning: it goes above them, where no sorting or filtering of the rows hides it.
Private Sub FillSheet(sheet As String, text As String)
    Dim lines As Variant, rows() As Variant, line As String, i As Long, count As Long
    lines = Split(text, Chr(13) & Chr(10))
    ReDim rows(UBound(lines)) As Variant
    Do While i <= UBound(lines)
        line = lines(i)
        Do While (Len(line) - Len(Replace(line, """", ""))) Mod 2 = 1 And i < UBound(lines)
            i = i + 1 ' within quotes a cell goes on in the next line
            line = line & Chr(10) & lines(i)
        Loop
        If count = 1 And IsWarning(line) Then
            HostPut sheet, 1, 1, CStr(CellsOf(line)(0)), False
        ElseIf Len(line) > 0 Then
            rows(count) = CellsOf(line)
            count = count + 1
        End If
        i = i + 1
    Loop
    ReDim Preserve rows(count - 1) As Variant
    HostFill sheet, ANSWER_HEADINGS, rows
End Sub

Private Function IsWarning(line As String) As Boolean
    Dim cells As Variant, i As Long
    If Right(line, 2) <> ",," Then Exit Function
    cells = CellsOf(line)
    For i = 1 To UBound(cells)
        If Len(cells(i)) > 0 Then Exit Function
    Next i
    IsWarning = Len(cells(0)) > 0
End Function

' The cells of one line of CSV, numbers as numbers.
Private Function CellsOf(line As String) As Variant
    Dim texts As Variant, cells() As Variant, i As Long, count As Long, ending As Long
    texts = Split(line, ",")
    ReDim cells(UBound(texts)) As Variant
    If InStr(line, """") = 0 Then
        For i = 0 To UBound(texts)
            cells(i) = AnswerValue(CStr(texts(i)))
        Next i
        CellsOf = cells
        Exit Function
    End If
    i = 1
    Do
        If Mid(line, i, 1) = """" Then
            ending = InStr(i + 1, line, """")
            Do While Mid(line, ending + 1, 1) = """" ' two stand for one
                ending = InStr(ending + 2, line, """")
            Loop
            cells(count) = Shown(Replace(Mid(line, i + 1, ending - i - 1), """""", """"))
            ending = ending + 1
        Else
            ending = InStr(i, line, ",")
            If ending = 0 Then ending = Len(line) + 1
            cells(count) = AnswerValue(Mid(line, i, ending - i))
        End If
        count = count + 1
        i = ending + 1
    Loop While ending <= Len(line)
    ReDim Preserve cells(count - 1) As Variant
    CellsOf = cells
End Function

Private Function AnswerValue(cell As String) As Variant
    If Len(cell) = 0 Then
        AnswerValue = ""
    ElseIf InStr("0123456789.-", Left(cell, 1)) = 0 Then
        AnswerValue = Shown(cell)
    ElseIf PlainNumber(cell) Then
        AnswerValue = Val(cell)
    Else
        AnswerValue = Shown(cell)
    End If
End Function

' An apostrophe that keeps text from being taken for a formula is not needed in a cell.
Private Function Shown(cell As String) As String
    Shown = cell
    If Left(cell, 1) = "'" And InStr("=+-@", Mid(cell & " ", 2, 1)) > 0 Then Shown = Mid(cell, 2)
End Function

Private Function PlainNumber(text As String) As Boolean
    Dim i As Long, c As String, dots As Long, digits As Long
    If Len(text) = 0 Or Len(text) > 25 Then Exit Function
    For i = 1 To Len(text)
        c = Mid(text, i, 1)
        If c >= "0" And c <= "9" Then
            digits = digits + 1
        ElseIf c = "." Then
            dots = dots + 1
        ElseIf Not (c = "-" And i = 1) Then
            Exit Function
        End If
    Next i
    PlainNumber = digits > 0 And dots <= 1
End Function

' Read the problems of an answer and write each beside what it is about.
Private Sub WriteProblems(json As String)
    Dim i As Long, c As String, key As String, value As String, count As Long
    Dim rule As String, got As String, fix As String, column As String, row As Long, told As String, place As String
    i = InStr(json, """errors"":[") + Len("""errors"":[")
    Do While i <= Len(json)
        c = Mid(json, i, 1)
        If c = "{" Then
            rule = ""
            got = ""
            fix = ""
            column = ""
            place = ""
            row = 0
            i = i + 1
        ElseIf c = """" Then
            key = JsonText(json, i)
            i = i + 1
            If Mid(json, i, 1) = """" Then value = JsonText(json, i) Else value = JsonNumber(json, i)
            Select Case key
                Case "pointer": place = value
                Case "rule": rule = value
                Case "got": got = value
                Case "fix": fix = value
                Case "column": column = value
                Case "row": row = Val(value)
            End Select
        ElseIf c = "}" Then
            count = count + 1
            If rule = "needed" Then value = "is needed. " & fix Else value = "needs " & rule & "; got " & got & ". " & fix
            If Left(column, 4) = "job." Then
                value = Mid(column, 5) & " " & value
            ElseIf Len(column) > 0 Then
                value = column & " " & value
            Else
                value = place & " " & value
            End If
            If Len(told) = 0 And row > 1 And Left(column, 4) <> "job." Then told = "row " & (HEADINGS + row - 1) & ": "
            If count = 1 Then told = told & Trim(value)
            PlaceProblem row, column, value
            i = i + 1
        ElseIf c = "]" Then
            Exit Do
        Else
            i = i + 1
        End If
    Loop
    If count = 1 Then value = "1 thing is wrong" Else value = count & " things are wrong"
    HostPut "Cabinets", 2, 2, value & "; see the problem columns of Cabinets and Job. First, " & told, False
End Sub

' Write a problem beside its row or value, where the workbook has such a place.
Private Sub PlaceProblem(row As Long, column As String, words As String)
    Dim at As Long, problems As Long, last As Long
    If Left(column, 4) = "job." Then
        last = LastRow("Job", JOB_FIRST)
        For at = JOB_FIRST To last
            If "job." & HostText("Job", at, 1) = column Then Exit For
        Next at
        If at > last Then HostPut "Job", at, 1, Mid(column, 5), False ' a row for what is missing
        Added "Job", at, 3, words
    ElseIf row >= 1 Then
        problems = ColumnOf("problem")
        at = ColumnOf(column)
        If Len(column) > 0 And at < problems Then HostRemark "Cabinets", HEADINGS + row - 1, at, words
        If row > 1 Then Added "Cabinets", HEADINGS + row - 1, problems, words
    End If
End Sub

Private Sub Added(sheet As String, row As Long, column As Long, words As String)
    Dim before As String
    before = HostText(sheet, row, column)
    If Len(before) > 0 Then before = before & " "
    HostPut sheet, row, column, before & words, False
End Sub

' A JSON string whose opening quote stands at i; i is left after its closing quote.
Private Function JsonText(json As String, i As Long) As String
    Dim c As String, text As String
    i = i + 1
    Do While i <= Len(json)
        c = Mid(json, i, 1)
        i = i + 1
        If c = """" Then Exit Do
        If c = "\" Then
            c = Mid(json, i, 1)
            i = i + 1
            Select Case c
                Case "n", "r", "t", "b", "f": c = " "
                Case "u"
                    c = HostLetter(Val("&H" & Mid(json, i, 4)))
                    i = i + 4
            End Select
        End If
        text = text & c
    Loop
    JsonText = text
End Function

Private Function JsonNumber(json As String, i As Long) As String
    Dim c As String, text As String
    Do While i <= Len(json)
        c = Mid(json, i, 1)
        If c = "," Or c = "}" Then Exit Do
        text = text & c
        i = i + 1
    Loop
    JsonNumber = text
End Function

Private Function Verdict() As String
    Dim row As Long, stops As Long, cautions As Long
    For row = ANSWER_HEADINGS + 1 To LastRow("Checks", ANSWER_HEADINGS)
        If HostText("Checks", row, 1) = "stop" Then stops = stops + 1
        If HostText("Checks", row, 1) = "caution" Then cautions = cautions + 1
    Next row
    If stops > 0 Then
        Verdict = "DO NOT CUT: checks that say stop: " & stops & ". See Checks."
    Else
        Verdict = "No check says stop; cautions to read in Checks: " & cautions & "."
    End If
End Function

' The column of Cabinets with a heading; where there is none, the first column without a heading.
Private Function ColumnOf(heading As String) As Long
    Dim column As Long, text As String
    For column = 1 To MOST_COLUMNS
        text = HostText("Cabinets", HEADINGS, column)
        If text = heading Or Len(text) = 0 Then Exit For
    Next column
    ColumnOf = column
End Function

' The last row that is used, or the row before the first where none is: three empty rows end a sheet.
Private Function LastRow(sheet As String, first As Long) As Long
    Dim row As Long, found As Long
    found = first
    row = first
    Do While row <= found + 3
        If Len(HostText(sheet, row, 1)) + Len(HostText(sheet, row, 2)) > 0 Then found = row
        row = row + 1
    Loop
    LastRow = found
End Function
